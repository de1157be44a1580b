#pragma once

#include <optional>
#include <vector>

#include "measure/gloss_cells.h"

namespace tonemend {

/// What the light at one region may differ by from picture to picture beside gloss; relative, standard
/// uncertainty in one picture.
struct UnevenLight {
    double common = 0;   ///< all channels alike
    double channel = 0;  ///< each channel's own
};

/// What a region's finish mirrors, and what its wood does when the lamp is moved. Gloss is light of the
/// lamp's own colour, which is neutral in calibrated light, over the least that any picture shows at the same
/// place; as a share of white.
struct GlossSplit {
    std::vector<double> by_picture;  ///< mean gloss in each picture
    double gloss = 0;                ///< mean over the places of the most in any picture
    double gloss_u = 0;              ///< standard uncertainty
    double veil = 0, veil_u = 0;     ///< mean over pictures and places: what a mean of the pictures must lose
    double place_u = 0;              ///< standard uncertainty of one square's gloss, noise alone
    std::vector<std::vector<double>>
        cells;  ///< a square, then a picture: its gloss; empty where nothing serves
    /// How much a place's light without gloss differs from picture to picture, after what changes all over
    /// the region (its mean and its slope) is taken off: relative standard deviation in one picture, beyond
    /// noise.
    double shimmer = 0;
    double shimmer_u95 = 0;
};

/// Splits what differs between the pictures of each square into a part that multiplies the wood's own light
/// (uneven light, shimmer) and a neutral part that adds (gloss), by weighted least squares: noise, the
/// light's uncertainty and the wood's own light times what brightness differs by over the region are its
/// covariance. On coloured wood colour decides; on grey wood brightness does, as far as the light is known,
/// and gloss_u says how far that is.
///
/// The least of several noisy values is too small. So gloss is not the least of the estimates: each is drawn
/// towards the region's mean by how noisy it is (empirical Bayes), and the expectation of what exceeds the
/// least is taken over what that leaves open.
GlossSplit split_gloss(const GlossCells& grid, const UnevenLight& uneven);

/// The gloss of one square by itself, the most of any picture over the least, told by colour whatever the
/// light does; nothing where colour leaves it open by more than 0.5 % of white (grey surfaces). For maps:
/// noise adds to it.
std::optional<double> gloss_by_colour(const GlossCells& grid, const GlossCell& cell);

}  // namespace tonemend
