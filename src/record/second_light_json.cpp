#include "record/second_light_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "measure/light_words.h"
#include "record/comparison_json.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

double shortened(double value) {
    return std::round(value * 1e4) / 1e4 + 0.0;
}

Json shortened(const std::array<double, 3>& values) {
    return {shortened(values[0]), shortened(values[1]), shortened(values[2])};
}

Json shortened(const std::optional<double>& value) {
    return value ? Json(shortened(*value)) : Json(nullptr);
}

Json light_json(const PairUnderOne& light) {
    return {{"name", light.light.name},
            {"stated", light.light.stated ? Json(light.light.stated->text) : Json(nullptr)},
            {"kelvin", shortened(light.light.kelvin())},
            {"kelvin_seen", shortened(light.light.seen_kelvin)},
            {"regions", {{"original", name(light.original_from)}, {"repair", name(light.repair_from)}}},
            {"comparison", to_json(*light.calibration, light.comparison)}};
}

Json change_json(const LightChange& change, const std::string& second_light) {
    Json warnings = Json::array();
    for (const Warning& warning : change.warnings)
        warnings.push_back({{"code", warning.code}, {"text", warning.text}, {"unfit", warning.unfit}});
    return {{"light", second_light},
            {"metamerism_index",
             {{"de2000", shortened(change.index.de2000)},
              {"de2000_u95", shortened(change.index_u95)},
              {"delta_e_ab", shortened(change.index.delta_e_ab)}}},
            {"shift", shortened(change.shift)},
            {"shift_u95", shortened(change.shift_u95)},
            {"parting", shortened(change.parting)},
            {"parting_u95", shortened(change.parting_u95)},
            {"unlikeness", shortened(change.unlikeness)},
            {"words", say_shift(change, second_light)},
            {"verdict", name(change.verdict)},
            {"warnings", warnings}};
}

}  // namespace

Json to_json(const PairUnderLights& pair) {
    Json lights = Json::array(), changes = Json::array();
    for (const PairUnderOne& light : pair.lights) lights.push_back(light_json(light));
    for (std::size_t i = 0; i < pair.changes.size(); ++i)
        changes.push_back(change_json(pair.changes[i], pair.lights[i + 1].light.name));
    return {{"schema", "tonemend.second-light/1"},
            {"verdict", name(pair.verdict())},
            {"caution", shortened(pair.limits.caution)},
            {"alarm", shortened(pair.limits.alarm)},
            {"lights", lights},
            {"changes", changes}};
}

}  // namespace tonemend
