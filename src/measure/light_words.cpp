#include "measure/light_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace tonemend {
namespace {

constexpr double least_named = 0.1;

struct Turn {
    std::string_view word;
    double amount;
};

std::vector<Turn> turns_of(const LightChange& change) {
    constexpr std::array<std::array<std::string_view, 2>, 3> words{
        {{"darker", "lighter"}, {"greener", "redder"}, {"bluer", "yellower"}}};
    std::vector<Turn> turns;
    for (std::size_t k = 0; k < 3; ++k) {
        const double amount = std::abs(change.shift[k]);
        if (amount > change.shift_u95[k] && amount >= least_named)
            turns.push_back({words[k][change.shift[k] > 0 ? 1 : 0], amount});
    }
    std::sort(turns.begin(), turns.end(), [](const Turn& p, const Turn& q) { return p.amount > q.amount; });
    return turns;
}

}  // namespace

std::string say_shift(const LightChange& change, const std::string& second_light) {
    std::string text;
    for (const Turn& turn : turns_of(change))
        text += fmt::format("{}{} by {:.1f}", text.empty() ? "goes " : ", then ", turn.word, turn.amount);
    if (text.empty()) text = "moves no more than the ± allows";
    return fmt::format("Under {} the repair {}.", second_light, text);
}

std::string say_verdict(const LightChange& change, const PairUnderOne& first, const PairUnderOne& second) {
    const double before = first.comparison.difference.de2000, after = second.comparison.difference.de2000;
    const double tolerance = first.comparison.tolerance;
    switch (change.verdict) {
        case LightVerdict::alarm:
            return "It parts when the light changes: match it with the original's own colourants, or under "
                   "the light it will stand in.";
        case LightVerdict::caution:
            return "It may be seen to part when the light changes: look at it in the room it will stand in "
                   "before you go on.";
        case LightVerdict::undecided:
            return "Nothing can be said of the match from these two pictures: mend what is said below and "
                   "read again.";
        case LightVerdict::holds:
            break;
    }
    if (std::max(before, after) <= tolerance) return "The match holds in both lights.";
    if (std::min(before, after) > tolerance)
        return "Both lights show the two much alike: no metamerism, but no match yet either.";
    return "The change of light moves the two by less than the caution limit.";
}

std::string_view beyond_the_camera() {
    return "No camera knows: what your customer's eye sees (eyes differ), lights in between these, and "
           "finishes or papers that glow under ultraviolet.";
}

}  // namespace tonemend
