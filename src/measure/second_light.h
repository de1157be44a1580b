#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/metamerism.h"
#include "measure/carry_region.h"
#include "measure/comparison.h"

namespace tonemend {

/// What is known of the light of one picture of the pair.
struct KnownLight {
    std::string name;                   ///< for people: "old bulb", "light 2"
    std::optional<StatedLight> stated;  ///< as its user states it
    std::optional<double> seen_kelvin;  ///< correlated colour temperature as a raw file's white has it

    /// Stated, else seen.
    std::optional<double> kelvin() const { return stated ? stated->kelvin : seen_kelvin; }
};

/// The pair as it was read under one light, on the card's own reading there.
struct PairUnderOne {
    KnownLight light;
    std::shared_ptr<const Calibration> calibration;  ///< never null
    Comparison comparison;
    RegionOrigin original_from = RegionOrigin::given, repair_from = RegionOrigin::given;
};

/// From where on a change of light is warned of; ΔE2000.
struct LightLimits {
    double caution = 1.5;
    double alarm = 2.0;
};

enum class LightVerdict { holds, caution, alarm, undecided };

/// "holds", "caution", "alarm", "undecided".
std::string_view name(LightVerdict verdict);

/// What the second light makes of a pair. The half widths are 95 %.
struct LightChange {
    /// The special metamerism index (CIE 15:2018, multiplicative correction): how far the two part under the
    /// second light, had they matched under the first. Computed in XYZ under each light itself where both
    /// lights are known, as the definition has it; else in XYZ adapted to D50.
    MetamerismIndex index;
    double index_u95 = 0;
    std::array<double, 3> shift{};  ///< ΔL*, Δa*, Δb* (repair minus original): second light's minus first's
    std::array<double, 3> shift_u95{};
    double parting = 0;  ///< what the limits are held against; see parting_of
    double parting_u95 = 0;
    std::optional<double>
        unlikeness;  ///< of the two lights, see unlikeness_of; absent when either is not known
    LightVerdict verdict = LightVerdict::undecided;
    std::vector<Warning> warnings;  ///< of the two lights together; the readings' own stand in them
};

/// What the limits are held against: the index, in XYZ adapted to D50 as all readings are, so that it is the
/// ΔE2000 under the second light when the two match under the first; or, if that is larger, the ΔE2000 under
/// the second light less twice what stood apart under the first beyond `tolerance`. A pair that matches thus
/// counts with what is seen under the second light, and one that does not with the index, since a difference
/// in amount alone grows or shrinks with the light too.
double parting_of(double de2000_first, double de2000_second, double index, double tolerance);

/// Two lights less unlike than this show most metameric pairs alike: see unlikeness_of.
inline constexpr double least_unlikeness = 1.5;

/// How unlike two known lights are: rendering_difference over the 14 test colours of CIE 13.3. A light of
/// which only the temperature is known counts as light_of_temperature. Nothing when either is not known.
/// Throws InputError when the CIE's tables are missing.
std::optional<double> unlikeness_of(const KnownLight& first, const KnownLight& second);

/// Holds the pair under the second light against the pair under the first. Half widths come from the draws of
/// draw_pairs, the card, the tone curve and grain being common to both pictures, the light and what the
/// camera's colours leave open being each picture's own: were these common too, as they partly are with one
/// camera, the half widths would be smaller. Where the index stands out of its half width, the colourants
/// differ more than those that the interval was made for, and all half widths grow, by two fifths at most
/// (from an index of twice its half width on; the second light's study shows what that leads to).
///
/// A limit is reached when `parting` with its half width added is at or over it: to miss a pair that parts
/// costs more than to look twice. Where the two are over twice the tolerance apart under the first light
/// there is no match to lose yet, and `parting` alone counts. undecided: a reading is unfit; or no limit is
/// reached by `parting` alone and its half width is over the caution limit; or no limit is reached and the
/// lights are known to be less unlike than `least_unlikeness`. holds: the rest.
LightChange compare_lights(const PairUnderOne& first, const PairUnderOne& second,
                           const LightLimits& limits = {});

/// A pair under two lights or more.
struct PairUnderLights {
    std::vector<PairUnderOne> lights;  ///< light one first
    std::vector<LightChange> changes;  ///< from light one to each other, in their order
    LightLimits limits;

    /// The gravest of the changes': alarm, caution, undecided, holds.
    LightVerdict verdict() const;
    /// A warning makes one of the readings unfit.
    bool unfit() const;
};

/// Holds each further light against the first, by compare_lights. Two lights at least (asserted).
PairUnderLights hold_against_first(std::vector<PairUnderOne> lights, const LightLimits& limits = {});

}  // namespace tonemend
