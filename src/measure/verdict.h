#pragma once

#include <string_view>

namespace tonemend {

enum class Verdict { match, close, off, undecided };

/// ΔE2000 at or under which a repair passes for the original, unless the user says otherwise.
inline constexpr double default_tolerance = 1.0;

/// match: de2000 + u95 at or under the tolerance. off: de2000 − u95 over twice the tolerance. undecided: u95
/// itself over the tolerance. close: the rest. Asked in that order.
Verdict judge(double de2000, double u95, double tolerance);

/// "match", "close", "off", "undecided".
std::string_view name(Verdict verdict);

}  // namespace tonemend
