#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "colour/lab.h"
#include "measure/verdict.h"

namespace tonemend {

enum class Move { darken, lighten, redden, greenen, yellow, blue };

/// One thing to do to the repair.
struct Step {
    Move move = Move::darken;
    double amount = 0;       ///< CIELAB units along L*, a* or b*, always positive
    double gain_de2000 = 0;  ///< how far ΔE2000 falls when this difference alone is taken away
};

/// "darken", "lighten", "redden", "greenen", "yellow", "blue".
std::string_view name(Move move);

/// As a person at the bench says it: "take red off" for greenen, "take yellow off" for blue, else the name.
std::string_view spoken(Move move);

/// What to do to the repair, by what it gains, strongest first. Only differences that stand out of their own
/// 95 % half width `difference_u95` (of ΔL*, Δa*, Δb*) and that gain something are named.
std::vector<Step> find_direction(const Lab& original, const Lab& repair,
                                 const std::array<double, 3>& difference_u95);

/// The next move as a person at the bench would say it: "Darken a little, then look for red."
std::string say_direction(const std::vector<Step>& steps, Verdict verdict);

}  // namespace tonemend
