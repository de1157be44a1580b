#include "measure/second_light.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "calibrate/model/reference_spectra.h"
#include "colour/adaptation.h"
#include "colour/difference.h"
#include "colour/integrate.h"
#include "colour/rendering_difference.h"
#include "measure/light_warnings.h"
#include "measure/uncertainty.h"

namespace tonemend {
namespace {

constexpr std::uint64_t shared_seed = 18140314, first_seed = 18140315, second_seed = 18140316;

std::vector<PairDraw> draws_of(const PairUnderOne& pair, std::uint64_t own_seed) {
    NormalDraws shared(shared_seed), own(own_seed);
    return draw_pairs(*pair.calibration, pair.comparison.original, pair.comparison.repair, shared, own);
}

// A draw may lie outside what surfaces reflect; its index needs light in all three.
XYZ lit(const Lab& lab) {
    constexpr double least = 1e-4;
    const XYZ xyz = to_xyz(lab, d50_icc);
    return {std::max(xyz.X, least), std::max(xyz.Y, least), std::max(xyz.Z, least)};
}

std::optional<Spectrum> power_of(const KnownLight& light) {
    if (light.stated) return light.stated->power;
    if (light.seen_kelvin) return light_of_temperature(*light.seen_kelvin).power;
    return std::nullopt;
}

// Where the index is computed: under the two lights themselves, or adapted to D50.
class IndexSpace {
  public:
    IndexSpace() = default;
    IndexSpace(const Spectrum& first, const Spectrum& second) {
        const Observer observer = read_observer_1931();
        second_white_ = white_point(second, observer);
        to_first_ = bradford(d50_icc, white_point(first, observer));
        to_second_ = bradford(d50_icc, second_white_);
    }
    MetamerismIndex index(const PairDraw& first, const PairDraw& second) const {
        return special_metamerism_index(
            {transform(to_first_, lit(first.original)), transform(to_first_, lit(first.repair))},
            {transform(to_second_, lit(second.original)), transform(to_second_, lit(second.repair))},
            second_white_);
    }

  private:
    Matrix3 to_first_ = Matrix3::identity(), to_second_ = Matrix3::identity();
    WhitePoint second_white_ = d50_icc;
};

IndexSpace space_of(const KnownLight& first, const KnownLight& second) {
    const auto one = power_of(first), other = power_of(second);
    return one && other ? IndexSpace(*one, *other) : IndexSpace();
}

double distance(const PairDraw& pair) {
    return ciede2000(pair.original, pair.repair).value;
}

std::array<double, 3> difference(const PairDraw& pair) {
    return {pair.repair.L - pair.original.L, pair.repair.a - pair.original.a,
            pair.repair.b - pair.original.b};
}

std::array<double, 3> shift_between(const PairDraw& first, const PairDraw& second) {
    const auto before = difference(first), after = difference(second);
    return {after[0] - before[0], after[1] - before[1], after[2] - before[2]};
}

PairDraw measured(const PairUnderOne& pair) {
    return {pair.comparison.original.lab, pair.comparison.repair.lab};
}

// What a camera does to pairs that are plainly metameric is more than it does to pairs of other colourants at
// large: set so that the study's intervals hold the truth (tests/measure/second_light_study.cpp).
void widen(LightChange& change) {
    constexpr double most = 0.4;
    if (!(change.index_u95 > 0)) return;
    const double times = 1 + most * std::clamp(change.index.de2000 / change.index_u95 - 1, 0.0, 1.0);
    change.index_u95 *= times, change.parting_u95 *= times;
    for (double& u95 : change.shift_u95) u95 *= times;
}

LightVerdict reached(double parting, const LightLimits& limits) {
    if (parting >= limits.alarm) return LightVerdict::alarm;
    return parting >= limits.caution ? LightVerdict::caution : LightVerdict::holds;
}

LightVerdict judge(const LightChange& change, const PairUnderOne& first, const PairUnderOne& second,
                   const LightLimits& limits) {
    // Written so that what is not a number is undecided too.
    if (first.comparison.unfit() || second.comparison.unfit() || !(change.parting >= 0))
        return LightVerdict::undecided;
    const bool near = first.comparison.difference.de2000 <= 2 * first.comparison.tolerance;
    const bool known = change.parting_u95 <= limits.caution;
    const double worst = change.parting + (near && known ? change.parting_u95 : 0);
    const LightVerdict verdict = reached(worst, limits);
    if (verdict != LightVerdict::holds) return verdict;
    const bool alike = change.unlikeness && *change.unlikeness < least_unlikeness;
    return alike || !known ? LightVerdict::undecided : verdict;
}

// How much it asks of the person.
int gravity(LightVerdict verdict) {
    switch (verdict) {
        case LightVerdict::alarm:
            return 3;
        case LightVerdict::caution:
            return 2;
        case LightVerdict::undecided:
            return 1;
        case LightVerdict::holds:
            break;
    }
    return 0;
}

}  // namespace

std::string_view name(LightVerdict verdict) {
    switch (verdict) {
        case LightVerdict::holds:
            return "holds";
        case LightVerdict::caution:
            return "caution";
        case LightVerdict::alarm:
            return "alarm";
        case LightVerdict::undecided:
            return "undecided";
    }
    return "";
}

double parting_of(double de2000_first, double de2000_second, double index, double tolerance) {
    return std::max(index, de2000_second - 2 * std::max(0.0, de2000_first - tolerance));
}

std::optional<double> unlikeness_of(const KnownLight& first, const KnownLight& second) {
    const auto one = power_of(first), other = power_of(second);
    if (!one || !other) return std::nullopt;
    static const std::vector<Spectrum> test_colours = read_test_colour_samples();
    static const Observer observer = read_observer_1931();
    return rendering_difference(*one, *other, test_colours, observer);
}

LightChange compare_lights(const PairUnderOne& first, const PairUnderOne& second, const LightLimits& limits) {
    const PairDraw one = measured(first), other = measured(second);
    LightChange change;
    const IndexSpace defined = space_of(first.light, second.light), adapted;
    const auto parting = [&](const PairDraw& before, const PairDraw& after) {
        return parting_of(distance(before), distance(after), adapted.index(before, after).de2000,
                          first.comparison.tolerance);
    };
    change.index = defined.index(one, other);
    change.shift = shift_between(one, other);
    change.parting = parting(one, other);
    const auto before = draws_of(first, first_seed), after = draws_of(second, second_seed);
    std::vector<double> index_misses, parting_misses;
    std::array<std::vector<double>, 3> shift_misses;
    for (std::size_t i = 0; i < before.size(); ++i) {
        const auto shift = shift_between(before[i], after[i]);
        index_misses.push_back(std::abs(defined.index(before[i], after[i]).de2000 - change.index.de2000));
        parting_misses.push_back(std::abs(parting(before[i], after[i]) - change.parting));
        for (std::size_t k = 0; k < 3; ++k) shift_misses[k].push_back(std::abs(shift[k] - change.shift[k]));
    }
    change.index_u95 = half_width_95(std::move(index_misses));
    change.parting_u95 = half_width_95(std::move(parting_misses));
    for (std::size_t k = 0; k < 3; ++k) change.shift_u95[k] = half_width_95(std::move(shift_misses[k]));
    widen(change);
    change.unlikeness = unlikeness_of(first.light, second.light);
    change.verdict = judge(change, first, second, limits);
    change.warnings = warn_of_lights(first, second, change);
    return change;
}

LightVerdict PairUnderLights::verdict() const {
    LightVerdict gravest = LightVerdict::holds;
    for (const LightChange& change : changes)
        if (gravity(change.verdict) > gravity(gravest)) gravest = change.verdict;
    return gravest;
}

bool PairUnderLights::unfit() const {
    return std::any_of(lights.begin(), lights.end(),
                       [](const PairUnderOne& light) { return light.comparison.unfit(); });
}

PairUnderLights hold_against_first(std::vector<PairUnderOne> lights, const LightLimits& limits) {
    assert(lights.size() >= 2);
    PairUnderLights result{std::move(lights), {}, limits};
    for (auto other = result.lights.begin() + 1; other != result.lights.end(); ++other)
        result.changes.push_back(compare_lights(result.lights.front(), *other, limits));
    return result;
}

}  // namespace tonemend
