#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "colour/lab.h"
#include "colour/spectrum.h"

namespace tonemend {

/// One patch of a reference card.
struct Patch {
    std::string name;
    double x0 = 0, y0 = 0, x1 = 0,
           y1 = 0;         ///< rectangle in card coordinates, 0..1 from the card's top-left corner
    Lab lab;               ///< under D50, 2° observer
    Spectrum reflectance;  ///< empty unless the file carries SPECTRAL_NM_… columns; 0..1

    /// A patch whose a* and b* are both within ±2 counts as a neutral step.
    bool neutral() const;
};

/// A reference card as its owner described it in a CGATS file (ISO 28178).
struct Card {
    std::string name;
    std::vector<Patch> patches;
};

/// Reads a card file. Throws InputError: missing fields, NaN, values out of range, repeated or overlapping
/// patches, no neutral patch.
Card read_card(const std::filesystem::path& path);

/// `card` as given when such a file exists, else calibration/`card`.txt of the installed or source tree.
/// Throws InputError that lists what is there.
std::filesystem::path locate_card(const std::string& card);

}  // namespace tonemend
