#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "practice/scene.h"

namespace tonemend::testing {

/// Seconds since 1970 at which the first still of every series was taken.
inline constexpr double first_still = 1'700'000'000;

/// A series of stills of the practice bench whose repair is wet and dries.
struct DryingStills {
    double fibre_minutes = 15;  ///< time constant
    int seed = 3;
    /// The scene so many minutes after the stain was wiped off.
    PracticeScene scene(double minutes) const;
    /// Writes one 8-bit PNG; the file's time is the still's.
    void write(const std::filesystem::path& path, double minutes) const;
    /// "00.png", "01.png", …, one every `every` minutes.
    void write_series(const std::filesystem::path& folder, int count, double every) const;
    std::string region() const;
};

}  // namespace tonemend::testing
