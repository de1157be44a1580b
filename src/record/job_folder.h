#pragma once

#include <filesystem>

#include "measure/comparison.h"
#include "record/annotated_picture.h"

namespace tonemend {

/// Where the readings of one job are kept as plain files: NNNN-<picture>.json (the comparison, with the
/// picture's name and the time) and NNNN-<picture>.png (the annotated copy), numbered from 0001 in the order
/// in which they were taken, to 999999. The name of the picture is cut to 200 bytes. Nothing is ever
/// overwritten, also when several programs keep readings at once.
class JobFolder {
  public:
    /// Names the folder; nothing is made yet.
    explicit JobFolder(std::filesystem::path folder) : folder_(std::move(folder)) {}

    /// Keeps one comparison of the picture at `picture`, making the folder if need be; returns the path of
    /// its JSON file. The annotated copy is written first, so that a reading that is listed is whole. Throws
    /// InputError when the folder cannot be made or written, or is full.
    std::filesystem::path keep(const std::filesystem::path& picture, const AnnotatedPicture& annotated,
                               const Calibration& calibration, const Comparison& comparison) const;

  private:
    void make() const;

    std::filesystem::path folder_;
};

}  // namespace tonemend
