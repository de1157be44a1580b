#include "advise/board/guide.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace tonemend {
namespace {

struct Candidate {
    AppliedCoat coat;
    bool second = false;
};

// The strips of a jar in the order in which they are asked for.
std::vector<Candidate> strips_of(const KitJar& jar, std::size_t colourant) {
    const double strongest = concentration_of(jar.least_thinner),
                 weakest = concentration_of(jar.most_thinner);
    std::vector<Candidate> strips{{{colourant, strongest, 0}, false}, {{colourant, strongest, 1}, true}};
    // Thinned two to one, then half and half, where that is allowed and another strip than those.
    for (const double share : {1.0 / 3, 0.5})
        if (share >= weakest && share < 0.8 * strongest) strips.push_back({{colourant, share, 0}, false});
    return strips;
}

bool was_read(std::span<const CoatObservation> seen, const AppliedCoat& coat, const std::string& wood) {
    return std::any_of(seen.begin(), seen.end(), [&](const CoatObservation& one) {
        return one.place.wood == wood && one.coats.size() == 1 &&
               one.coats.front().colourant == coat.colourant && one.coats.front().earlier == coat.earlier &&
               std::abs(std::log(one.coats.front().concentration / coat.concentration)) < 0.2;
    });
}

// The coat as it is expected to come out.
CoatObservation as_foretold(const ColourantModel& model, const Candidate& candidate, const ReadLook& bare,
                            const CoatPlace& place) {
    ReadLook before = bare;
    if (candidate.second) {
        AppliedCoat first = candidate.coat;
        first.earlier = 0;
        before.look = model.foretell(bare, std::array{first}, place).look;
    }
    const WoodLook after = model.foretell(before, std::array{candidate.coat}, place).look;
    return {{candidate.coat}, place, before, {after, bare.u}};
}

}  // namespace

double foretold_within(const Kit& kit, const ModelJars& jars, const ColourantModel& model,
                       const ReadLook& bare, const CoatPlace& place) {
    double sum = 0;
    int count = 0;
    for (std::size_t k = 0; k < jars.jar_of.size(); ++k) {
        const double strongest = concentration_of(kit.jars[jars.jar_of[k]].least_thinner);
        for (const double share : {0.5 * strongest, strongest})
            for (const int earlier : {0, 1}) {
                const LookForecast forecast =
                    model.foretell(bare, std::array{AppliedCoat{k, share, earlier}}, place);
                sum += forecast.whole_covariance().trace();
                ++count;
            }
    }
    return count == 0 ? 0 : std::sqrt(sum / count);
}

std::vector<StripAdvice> advise_strips(const Kit& kit, const ModelJars& jars,
                                       std::span<const CoatObservation> seen, const ReadLook& bare,
                                       const CoatPlace& place, std::size_t most) {
    std::vector<CoatObservation> known(seen.begin(), seen.end());
    std::vector<StripAdvice> advice;
    double now = foretold_within(kit, jars, ColourantModel(jars.colourants, known), bare, place);
    while (advice.size() < most) {
        const ColourantModel model(jars.colourants, known);
        std::optional<StripAdvice> best;
        CoatObservation best_strip;
        for (std::size_t k = 0; k < jars.jar_of.size(); ++k) {
            const std::vector<Candidate> strips = strips_of(kit.jars[jars.jar_of[k]], k);
            const auto next = std::find_if(strips.begin(), strips.end(), [&](const Candidate& strip) {
                return !was_read(known, strip.coat, place.wood);
            });
            if (next == strips.end()) continue;
            CoatObservation strip = as_foretold(model, *next, bare, place);
            known.push_back(strip);
            const double then =
                foretold_within(kit, jars, ColourantModel(jars.colourants, known), bare, place);
            known.pop_back();
            if (best && then >= best->after) continue;
            best = StripAdvice{jars.jar_of[k], thinner_of(next->coat.concentration), next->second, now, then};
            best_strip = std::move(strip);
        }
        constexpr double worth = 0.975;
        if (!best || best->after > worth * now) break;
        now = best->after;
        known.push_back(std::move(best_strip));
        advice.push_back(*best);
    }
    return advice;
}

}  // namespace tonemend
