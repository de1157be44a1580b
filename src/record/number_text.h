#pragma once

#include <string>

namespace tonemend {

enum class Sign { always, only_minus };

/// One decimal with a true minus sign (U+2212); what rounds to zero has no sign: "+2.1", "−0.4", "0.0".
std::string number_text(double value, Sign sign);

/// "± 0.3": a half width with one decimal, rounded up, so that no more is claimed than is known.
std::string interval_text(double half_width);

}  // namespace tonemend
