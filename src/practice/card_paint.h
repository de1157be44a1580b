#pragma once

#include <vector>

#include "calibrate/card/card.h"
#include "practice/bands.h"

namespace tonemend {

/// A smooth reflectance, between 0 and 1 everywhere, whose colour under CIE D50 is `lab`: the logistic
/// function of a quadratic in wavelength; flat for an exact neutral. L of 1..99; throws InputError for a
/// colour that no such reflectance has. Source of the family: W. Jakob, J. Hanika, "A low-dimensional
/// function space for efficient spectral upsampling", Computer Graphics Forum 38 (2019).
Bands smooth_reflectance(const Lab& lab);

/// What each patch of the card is painted with: its own spectrum where the card file has one, else
/// smooth_reflectance of its nominal Lab.
std::vector<Bands> paint_card(const Card& card);

/// Plain things of the bench, 0..1.
Bands paper_white();
Bands toner_black();
Bands bench_top();
Bands card_board();  ///< the card between its patches

}  // namespace tonemend
