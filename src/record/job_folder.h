#pragma once

#include <filesystem>

#include "record/reading_store.h"

namespace tonemend {

/// Readings as plain files in one folder: NNNN-<picture>.json (the comparison, with the picture's name and
/// the time), NNNN-<picture>.png (the annotated copy) and, for a reading kept with its picture,
/// NNNN-<picture>.frame.png (8 or 16 bit) or .frame.tif (float, or a lookup-table profile) with the frame's
/// own samples and an ICC profile. Numbered from 0001 to 999999; the name of the picture is cut to 200
/// bytes. Nothing is ever overwritten, also when several programs keep readings at once. The JSON comes
/// last, each file whole or not at all, so that a reading that is listed is whole. An undone reading's JSON
/// has the ending ".json.undone".
class JobFolder : public ReadingStore {
  public:
    /// Names the folder; nothing is made before the first reading.
    explicit JobFolder(std::filesystem::path folder) : folder_(std::move(folder)) {}

    KeptReading keep(const ReadingToKeep& reading) override;
    std::vector<KeptReading> list() const override;
    void undo(int number) override;
    ReopenedReading reopen(int number) const override;

  private:
    std::filesystem::path file_of(int number) const;

    std::filesystem::path folder_;
};

}  // namespace tonemend
