#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "advise/model/coat_effect.h"

namespace tonemend {

/// What the person calls a colourant's colour, before anything was tried.
enum class HueWord { yellow, orange, red, brown, umber, sienna, red_oxide, black };

/// "yellow", "orange", "red", "brown", "umber", "sienna", "red oxide", "black".
std::string_view name(HueWord hue);
std::optional<HueWord> find_hue_word(std::string_view text);

/// A value and how well it is known: standard deviation.
struct LearntValue {
    double mean = 0, sd = 1;
};

/// What of a colourant is to be learnt, in this order. The amount of a coat (see after_coat) is exp(uptake of
/// wood and board + grit · log2(grit / 150) + thinning · ln(concentration) + next_coat · coats before +
/// lodging on the figure).
enum class Unknown : std::size_t {
    red,  ///< natural logarithm of the absorption in the red channel, and so on
    green,
    blue,
    thinning,    ///< power of the concentration
    next_coat,   ///< natural logarithm of what each further coat adds, relative to the one before
    grit,        ///< per doubling of the grit's number
    lodging,     ///< natural logarithm of how much more the figure takes than the ground
    scattering,  ///< natural logarithm; pigment alone
};
inline constexpr std::size_t most_unknowns = 8;

/// How many of them a group has: all but a pigment lack the last.
std::size_t unknowns_of(ColourantGroup group);

using ColourantBelief = std::array<LearntValue, most_unknowns>;

/// What is believed of a colourant of which only the kind is known and, if the person says so, the hue:
/// absorptions of the usual stains and dyes, wide enough for others; coats, thinning and grit as the trade
/// finds them (common practice, no source: a further coat of dye adds about three quarters of the one before,
/// of a wiped pigment stain less; coarser grit holds more pigment and hardly more dye; pigment lodges in the
/// figure). The two deviations of one kind of wood or board from the next are in WoodBelief.
ColourantBelief prior_belief(ColourantGroup group, std::optional<HueWord> hue);

/// What woods and boards do beside: standard deviations of the natural logarithm of the amount taken.
struct WoodBelief {
    double wood = 0.3;                ///< between woods, common to all colourants of a group
    double own = 0.1;                 ///< between woods, each colourant's own part
    double board = 0.08;              ///< between boards of one wood
    double application = 0.1;         ///< between two coats of the same hand
    double discrepancy = 0.2;         ///< what the model leaves out, CIELAB, each axis
    double discrepancy_share = 0.02;  ///< and its share of how far the coat moved the colour
};
const WoodBelief& wood_belief(ColourantGroup group);

}  // namespace tonemend
