#include "record/second_light_json.h"

#include <nlohmann/json.hpp>

#include "measure/light_words.h"
#include "record/comparison_json.h"
#include "record/json_numbers.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

Json rounded_or_null(const std::optional<double>& value) {
    return value ? Json(rounded(*value)) : Json(nullptr);
}

Json light_json(const PairUnderOne& light) {
    return {{"name", light.light.name},
            {"stated", light.light.stated ? Json(light.light.stated->text) : Json(nullptr)},
            {"kelvin", rounded_or_null(light.light.kelvin())},
            {"kelvin_seen", rounded_or_null(light.light.seen_kelvin)},
            {"regions", {{"original", name(light.original_from)}, {"repair", name(light.repair_from)}}},
            {"comparison", to_json(*light.calibration, light.comparison)}};
}

Json change_json(const LightChange& change, const std::string& second_light) {
    Json warnings = Json::array();
    for (const Warning& warning : change.warnings)
        warnings.push_back({{"code", warning.code}, {"text", warning.text}, {"unfit", warning.unfit}});
    return {{"light", second_light},
            {"metamerism_index",
             {{"de2000", rounded(change.index.de2000)},
              {"de2000_u95", rounded(change.index_u95)},
              {"delta_e_ab", rounded(change.index.delta_e_ab)}}},
            {"shift", numbers_json(change.shift)},
            {"shift_u95", numbers_json(change.shift_u95)},
            {"parting", rounded(change.parting)},
            {"parting_u95", rounded(change.parting_u95)},
            {"unlikeness", rounded_or_null(change.unlikeness)},
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
            {"caution", rounded(pair.limits.caution)},
            {"alarm", rounded(pair.limits.alarm)},
            {"lights", lights},
            {"changes", changes}};
}

}  // namespace tonemend
