#include "advise/model/colourant_prior.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

struct HueFacts {
    HueWord hue;
    std::string_view name;
    std::array<double, 3> absorption;  // red, green, blue
};

constexpr std::array<HueFacts, 8> hue_facts{{
    {HueWord::yellow, "yellow", {0.03, 0.08, 1.1}},
    {HueWord::orange, "orange", {0.08, 0.40, 1.1}},
    {HueWord::red, "red", {0.10, 0.80, 0.6}},
    {HueWord::brown, "brown", {0.35, 0.60, 1.2}},
    {HueWord::umber, "umber", {0.20, 0.34, 0.7}},
    {HueWord::sienna, "sienna", {0.08, 0.30, 0.7}},
    {HueWord::red_oxide, "red oxide", {0.08, 0.35, 0.6}},
    {HueWord::black, "black", {0.80, 0.80, 0.9}},
}};

std::size_t at(Unknown unknown) {
    return static_cast<std::size_t>(unknown);
}

// Without a hue: the mean of all, and as wide as they differ.
LearntValue over_all_hues(std::size_t channel, double sd) {
    double sum = 0, squares = 0;
    for (const HueFacts& facts : hue_facts) {
        const double value = std::log(facts.absorption[channel]);
        sum += value, squares += value * value;
    }
    constexpr double count = hue_facts.size();
    const double mean = sum / count;
    return {mean, std::sqrt(squares / count - mean * mean + sd * sd)};
}

}  // namespace

std::string_view name(HueWord hue) {
    return hue_facts[static_cast<std::size_t>(hue)].name;
}

std::optional<HueWord> find_hue_word(std::string_view text) {
    for (const HueFacts& facts : hue_facts)
        if (facts.name == text) return facts.hue;
    return std::nullopt;
}

std::size_t unknowns_of(ColourantGroup group) {
    return group == ColourantGroup::pigment ? most_unknowns : most_unknowns - 1;
}

ColourantBelief prior_belief(ColourantGroup group, std::optional<HueWord> hue) {
    constexpr double sd = 0.8;
    ColourantBelief belief{};
    for (std::size_t i = 0; i < 3; ++i)
        belief[i] = hue ? LearntValue{std::log(hue_facts[static_cast<std::size_t>(*hue)].absorption[i]), sd}
                        : over_all_hues(i, sd);
    switch (group) {
        case ColourantGroup::dye:
            belief[at(Unknown::thinning)] = {0.92, 0.08};
            belief[at(Unknown::next_coat)] = {-0.35, 0.2};
            belief[at(Unknown::grit)] = {-0.05, 0.06};
            belief[at(Unknown::lodging)] = {0.05, 0.08};
            break;
        case ColourantGroup::pigment:
            belief[at(Unknown::thinning)] = {0.9, 0.1};
            belief[at(Unknown::next_coat)] = {-0.6, 0.5};
            belief[at(Unknown::grit)] = {-0.2, 0.2};
            belief[at(Unknown::lodging)] = {0.35, 0.25};
            belief[at(Unknown::scattering)] = {std::log(0.08), 0.9};
            break;
        case ColourantGroup::bleach:
            for (std::size_t i = 0; i < 3; ++i) belief[i] = {std::log(0.6), 0.6};
            belief[at(Unknown::thinning)] = {0.8, 0.2};
            belief[at(Unknown::next_coat)] = {-0.4, 0.3};
            belief[at(Unknown::grit)] = {0, 0.05};
            belief[at(Unknown::lodging)] = {0, 0.15};
            break;
    }
    return belief;
}

const WoodBelief& wood_belief(ColourantGroup group) {
    static constexpr WoodBelief dye{}, pigment{0.35, 0.1, 0.08, 0.1, 0.25, 0.025},
        bleach{0.4, 0.2, 0.1, 0.15, 0.5, 0.06};
    switch (group) {
        case ColourantGroup::dye:
            return dye;
        case ColourantGroup::pigment:
            return pigment;
        default:
            return bleach;
    }
}

}  // namespace tonemend
