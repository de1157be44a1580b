#pragma once

#include <filesystem>

#include "measure/comparison.h"

namespace tonemend {

/// Where the readings of one job are kept as plain files: NNNN-<picture>.json (the comparison, with the
/// picture's name and the time) and NNNN-<picture>.png (the annotated copy), numbered in the order in which
/// they were taken. Nothing is ever overwritten.
class JobFolder {
  public:
    /// Names the folder; nothing is made yet.
    explicit JobFolder(std::filesystem::path folder) : folder_(std::move(folder)) {}

    /// Makes the folder unless it stands. Throws InputError when that cannot be.
    void make() const;

    /// Keeps one comparison, making the folder if need be; returns the path of its JSON file. The picture is
    /// written first, so that a reading that is listed is whole. Throws InputError when the folder cannot be
    /// made or written.
    std::filesystem::path keep(const Frame& frame, const Calibration& calibration,
                               const Comparison& comparison) const;

  private:
    std::filesystem::path folder_;
};

}  // namespace tonemend
