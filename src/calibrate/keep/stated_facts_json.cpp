#include "calibrate/keep/stated_facts_json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "picture/input_error.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t most_samples = 1000;

// As parse_light takes it: of a light that only its temperature is known of, the number.
std::string light_text(const StatedLight& light) {
    return light.text.ends_with(" K") ? fmt::format("{}", light.kelvin) : light.text;
}

StatedLight to_light(const JsonPart& json) {
    try {
        return parse_light(json.text(80));
    } catch (const InputError&) {
        json.refuse("is no light");
    }
}

ColourSample to_sample(const JsonPart& json) {
    try {
        return parse_sample(json.raw_text());
    } catch (const InputError&) {
        json.refuse("is no sample");
    }
}

}  // namespace

Json stated_json(const StatedFacts& facts) {
    Json json{{"black_level", facts.black_level ? Json(*facts.black_level) : Json(nullptr)},
              {"light", facts.light ? Json(light_text(*facts.light)) : Json(nullptr)},
              {"colourants", name(facts.colourants)}};
    for (const ColourSample& sample : facts.samples) json["samples"].push_back(sample.text);
    return json;
}

StatedFacts to_stated_facts(const JsonPart& json) {
    StatedFacts facts;
    if (const auto black = json.find("black_level")) facts.black_level = black->number(0, 65535);
    if (const auto light = json.find("light")) facts.light = to_light(*light);
    if (const auto colourants = json.find("colourants")) {
        const auto known = colourants_named(colourants->text(20));
        if (!known) colourants->refuse("is no kind of colourants");
        facts.colourants = *known;
    }
    if (const auto samples = json.find("samples"))
        for (const JsonPart& sample : samples->list(most_samples)) facts.samples.push_back(to_sample(sample));
    return facts;
}

}  // namespace tonemend
