#include "measure/sheen_verdict.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

constexpr double normal_95 = 1.959964;  // of a normal error (JCGM 100:2008, table G.1)
constexpr double least_tolerance = 0.004, tolerance_share = 0.25;
constexpr double visible_shimmer = 0.01;

// By all of both intervals less than half of the other.
bool far_less(const GlossSplit& one, const GlossSplit& other) {
    return 0.5 * other.shimmer - one.shimmer > std::hypot(0.5 * other.shimmer_u95, one.shimmer_u95) &&
           other.shimmer - other.shimmer_u95 >= visible_shimmer;
}

}  // namespace

SheenMatch judge_sheen(const GlossSplit& original, const GlossSplit& repair) {
    SheenMatch match;
    match.difference = repair.gloss - original.gloss;
    match.u95 = normal_95 * std::hypot(original.gloss_u, repair.gloss_u);
    match.tolerance = std::max(least_tolerance, tolerance_share * std::max(original.gloss, repair.gloss));
    const double size = std::abs(match.difference);
    if (size + match.u95 <= match.tolerance)
        match.verdict = SheenVerdict::alike;
    else if (size - match.u95 >= match.tolerance)
        match.verdict = match.difference > 0 ? SheenVerdict::repair_glossier : SheenVerdict::repair_duller;
    return match;
}

std::string_view name(SheenVerdict verdict) {
    switch (verdict) {
        case SheenVerdict::alike:
            return "alike";
        case SheenVerdict::repair_glossier:
            return "repair-glossier";
        case SheenVerdict::repair_duller:
            return "repair-duller";
        case SheenVerdict::undecided:
            return "undecided";
    }
    return "";
}

// What to do: common practice of finishers, no source.
std::string say_sheen(const SheenMatch& match) {
    switch (match.verdict) {
        case SheenVerdict::alike:
            return "the two have the same sheen";
        case SheenVerdict::repair_glossier:
            return "the repair is glossier: it will show from where the lamp mirrors, whatever its colour; "
                   "rub "
                   "it down once it has cured, or give it a flatter last coat";
        case SheenVerdict::repair_duller:
            return "the repair is duller: it will show from where the lamp mirrors, whatever its colour; "
                   "give "
                   "it a further clear coat, or rub it up";
        case SheenVerdict::undecided:
            return "whether the sheens match can't be told from these pictures";
    }
    return "";
}

FigureVerdict judge_figure(const GlossSplit& original, const GlossSplit& repair) {
    const double most =
        std::max(original.shimmer + original.shimmer_u95, repair.shimmer + repair.shimmer_u95);
    if (most < visible_shimmer) return FigureVerdict::plain;
    if (far_less(repair, original)) return FigureVerdict::lost;
    if (far_less(original, repair)) return FigureVerdict::gained;
    const double least = std::min(original.shimmer, repair.shimmer),
                 largest = std::max(original.shimmer, repair.shimmer);
    return largest >= visible_shimmer && least >= 0.5 * largest ? FigureVerdict::kept
                                                                : FigureVerdict::undecided;
}

std::string_view name(FigureVerdict verdict) {
    switch (verdict) {
        case FigureVerdict::plain:
            return "plain";
        case FigureVerdict::kept:
            return "kept";
        case FigureVerdict::lost:
            return "lost";
        case FigureVerdict::gained:
            return "gained";
        case FigureVerdict::undecided:
            return "undecided";
    }
    return "";
}

// Common practice of finishers, no source.
std::string say_figure(FigureVerdict verdict) {
    switch (verdict) {
        case FigureVerdict::plain:
            return "neither shimmers when the lamp is moved";
        case FigureVerdict::kept:
            return "both shimmer when the lamp is moved: the figure is kept";
        case FigureVerdict::lost:
            return "the original shimmers when the lamp is moved, the repair does not: heavy pigment hides "
                   "figure, dye keeps it";
        case FigureVerdict::gained:
            return "the repair shimmers when the lamp is moved, the original does not: pigment over the dye "
                   "quietens it";
        case FigureVerdict::undecided:
            return "whether the repair shimmers as the original does can't be told from these pictures";
    }
    return "";
}

}  // namespace tonemend
