#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "practice/bands.h"

namespace tonemend {

/// How a colourant works. A dye dissolves into the fibres and only absorbs; a pigment lies on them as a thin
/// layer that absorbs and scatters.
enum class ColourantKind { dye, pigment };

/// Which family its hue belongs to: the earths and wood tones of a finisher's shelf, or anything else.
enum class ColourantFamily { earth, other };

/// An invented colourant at full strength.
struct Colourant {
    std::string name;
    ColourantKind kind = ColourantKind::dye;
    ColourantFamily family = ColourantFamily::earth;
    Bands absorption{};  ///< dye: K added to the wood's (whose S is 1); pigment: K·X of one full coat
    Bands scattering{};  ///< dye: 0; pigment: S·X of one full coat
};

const std::vector<Colourant>& colourants();
/// Those of the earths and wood tones.
std::vector<const Colourant*> earth_shelf();
/// Throws InputError that lists the names.
const Colourant& find_colourant(std::string_view name);

}  // namespace tonemend
