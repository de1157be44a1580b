#include "measure/direction.h"

#include <algorithm>
#include <cmath>

#include "colour/difference.h"

namespace tonemend {
namespace {

constexpr double least_gain = 0.02;
constexpr double a_touch = 0.7, a_little = 1.5, clearly = 4.0;  // CIELAB units

std::string_view how_much(double amount) {
    if (amount < a_touch) return "by a touch";
    if (amount < a_little) return "a little";
    if (amount < clearly) return "clearly";
    return "a lot";
}

std::string_view first_words(Move move) {
    switch (move) {
        case Move::darken:
            return "Darken";
        case Move::lighten:
            return "Lighten";
        case Move::redden:
            return "Redden";
        case Move::greenen:
            return "Take red off (greenen)";
        case Move::yellow:
            return "Yellow";
        case Move::blue:
            return "Take yellow off (blue)";
    }
    return "";
}

std::string_view then_words(Move move) {
    switch (move) {
        case Move::darken:
            return "then darken";
        case Move::lighten:
            return "then lighten";
        case Move::redden:
            return "then look for red";
        case Move::greenen:
            return "then take red off";
        case Move::yellow:
            return "then look for yellow";
        case Move::blue:
            return "then take yellow off";
    }
    return "";
}

}  // namespace

std::string_view name(Move move) {
    switch (move) {
        case Move::darken:
            return "darken";
        case Move::lighten:
            return "lighten";
        case Move::redden:
            return "redden";
        case Move::greenen:
            return "greenen";
        case Move::yellow:
            return "yellow";
        case Move::blue:
            return "blue";
    }
    return "";
}

std::string_view spoken(Move move) {
    switch (move) {
        case Move::greenen:
            return "take red off";
        case Move::blue:
            return "take yellow off";
        case Move::darken:
        case Move::lighten:
        case Move::redden:
        case Move::yellow:
            break;
    }
    return name(move);
}

std::vector<Step> find_direction(const Lab& original, const Lab& repair,
                                 const std::array<double, 3>& difference_u95) {
    const double now = ciede2000(original, repair).value;
    const auto without = [&](const Lab& moved) { return now - ciede2000(original, moved).value; };
    const std::array<double, 3> difference{repair.L - original.L, repair.a - original.a,
                                           repair.b - original.b};
    const std::array<double, 3> gain{without({original.L, repair.a, repair.b}),
                                     without({repair.L, original.a, repair.b}),
                                     without({repair.L, repair.a, original.b})};
    const std::array<Move, 3> when_over{Move::darken, Move::greenen, Move::blue};
    const std::array<Move, 3> when_under{Move::lighten, Move::redden, Move::yellow};
    std::vector<Step> steps;
    for (std::size_t k = 0; k < 3; ++k) {
        const bool stands_out = std::abs(difference[k]) > difference_u95[k] && gain[k] >= least_gain;
        if (!stands_out) continue;
        steps.push_back({difference[k] > 0 ? when_over[k] : when_under[k], std::abs(difference[k]), gain[k]});
    }
    std::sort(steps.begin(), steps.end(),
              [](const Step& p, const Step& q) { return p.gain_de2000 > q.gain_de2000; });
    return steps;
}

std::string say_direction(const std::vector<Step>& steps, Verdict verdict) {
    if (verdict == Verdict::match) return "It matches: leave it.";
    if (steps.empty())
        return "No difference stands out of the uncertainty: read again in better light or over larger "
               "regions.";
    std::string words{first_words(steps[0].move)};
    words += " ";
    words += how_much(steps[0].amount);
    if (steps.size() > 1) {
        words += ", ";
        words += then_words(steps[1].move);
    }
    words += ".";
    if (steps[0].move == Move::darken && steps[0].amount >= a_little)
        words += " In thin coats, each read dry: dark is hard to undo.";
    if (steps[0].move == Move::lighten)
        words += " That takes wiping back, sanding or bleach: try it on a sample board first.";
    return words;
}

}  // namespace tonemend
