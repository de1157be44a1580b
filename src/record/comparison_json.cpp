#include "record/comparison_json.h"

#include <nlohmann/json.hpp>

#include "record/json_numbers.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

Json reading_json(const Reading& reading) {
    return {
        {"lab", lab_json(reading.lab)},
        {"lab_u95", {rounded(reading.lab_u95[0]), rounded(reading.lab_u95[1]), rounded(reading.lab_u95[2])}},
        {"ground", lab_json(reading.ground)},
        {"figure", lab_json(reading.figure)},
        {"figure_share", rounded(reading.figure_share)},
        {"pixels", reading.pixels},
        {"rejected", {{"clipped", reading.rejected_clipped}, {"glare", reading.rejected_glare}}},
        {"blank_de2000", rounded(reading.blank_de2000)}};
}

Json difference_json(const Difference& d) {
    return {{"de2000", rounded(d.de2000)},
            {"de2000_u95", rounded(d.de2000_u95)},
            {"dL", rounded(d.dL)},
            {"da", rounded(d.da)},
            {"db", rounded(d.db)},
            {"dC", rounded(d.dC)},
            {"dH", rounded(d.dH)},
            {"ground_de2000", rounded(d.ground_de2000)},
            {"figure_de2000", rounded(d.figure_de2000)}};
}

Json further_lights_json(const Comparison& comparison) {
    if (!comparison.many_lights) return nullptr;
    const ManyLightsOutcome& outcome = *comparison.many_lights;
    return {{"lights", outcome.lights},
            {"pictures", outcome.pictures},
            {"used", outcome.used},
            {"known_patches", outcome.known_patches},
            {"camera_u95_alone", rounded(outcome.camera_u95_alone)},
            {"camera_u95_together", rounded(outcome.camera_u95_together)},
            {"camera_u95_possible", rounded(outcome.camera_u95_possible)},
            {"light_noise", rounded(outcome.light_noise)},
            {"shift_px", rounded(outcome.shift_px)}};
}

}  // namespace

Json to_json(const Calibration& calibration, const Comparison& comparison) {
    Json direction = Json::array();
    for (const Step& step : comparison.direction) {
        direction.push_back({{"move", name(step.move)},
                             {"amount", rounded(step.amount)},
                             {"gain_de2000", rounded(step.gain_de2000)}});
    }
    Json warnings = Json::array();
    for (const Warning& warning : comparison.warnings) {
        warnings.push_back({{"code", warning.code}, {"text", warning.text}, {"unfit", warning.unfit}});
    }
    const XYZ& white = calibration.white;
    return {{"schema", "tonemend.comparison/1"},
            {"original", reading_json(comparison.original)},
            {"repair", reading_json(comparison.repair)},
            {"difference", difference_json(comparison.difference)},
            {"direction", direction},
            {"verdict", name(comparison.verdict)},
            {"tolerance", rounded(comparison.tolerance)},
            {"light",
             {{"card", calibration.card_name},
              {"white_xyz", {rounded(white.X), rounded(white.Y), rounded(white.Z)}},
              {"tone_curve", calibration.tone_curve},
              {"characterisation", calibration.characterisation.description},
              {"flat_field",
               calibration.flat_field ? Json(calibration.flat_field->description()) : Json(nullptr)},
              {"further_lights", further_lights_json(comparison)}}},
            {"warnings", warnings}};
}

std::string to_text(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace tonemend
