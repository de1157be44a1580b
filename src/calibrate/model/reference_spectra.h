#pragma once

#include <string>
#include <vector>

#include "colour/illuminant.h"
#include "colour/observer.h"
#include "colour/spectrum.h"

namespace tonemend {

/// The CIE's tables, read at run time from the files of Debian's package colord-data (CGATS text). The folder
/// is $TONEMEND_COLORD_DATA if set, else the first colord/ in $XDG_DATA_DIRS that has the file, else
/// /usr/share/colord. Every function throws InputError when its file is missing or damaged.

/// Relative power of a CIE illuminant, any scale: "CIE-A", "CIE-D50", "CIE-D65", "CIE-F11" and their like,
/// after the file's name (1 nm, 300–830 nm, for A, the D series and E; 5 nm, 380–780 nm, for the F series).
Spectrum read_illuminant(const std::string& name);

/// The CIE 1931 2° colour-matching functions, 5 nm, 360–830 nm (CIE 15:2018, table 4).
Observer read_observer_1931();

/// The reflectance factors (0..1) of the 14 test colours of CIE 13.3-1995, in their order.
std::vector<Spectrum> read_test_colour_samples();

/// S0, S1 and S2 of CIE daylight, 5 nm, 300–830 nm (CIE 15:2018, table 6).
DaylightComponents read_daylight_components();

}  // namespace tonemend
