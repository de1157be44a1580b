#pragma once

#include <string>

namespace tonemend {

/// How much a colourant is thinned.
struct Dilution {
    double thinner = 0, colourant = 1;  ///< parts by volume
};

/// Reads "2:1", two parts of thinner to one of colourant, each 0 to 1000 and not both 0. Throws InputError.
Dilution parse_dilution(const std::string& text);

}  // namespace tonemend
