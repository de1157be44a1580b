#include "calibrate/keep/calibration_reader.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "calibrate/keep/capture_facts_json.h"
#include "calibrate/keep/characterisation_json.h"
#include "calibrate/keep/control_chart_json.h"
#include "calibrate/keep/encoding_json.h"
#include "calibrate/keep/flat_field_json.h"
#include "calibrate/keep/readings_json.h"
#include "calibrate/keep/stated_facts_json.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr std::size_t most_curve_points = 2000, most_warnings = 100;
constexpr double most_curve_light = 1000, most_corner_place = 1e6;

SampleType to_sample_type(const JsonPart& json) {
    const std::string name = json.text(20);
    for (const auto& [known, type] : {std::pair{"uint8", SampleType::uint8},
                                      {"uint16", SampleType::uint16},
                                      {"float32", SampleType::float32}})
        if (name == known) return type;
    json.refuse("is no type of samples");
}

Frame to_picture(const JsonPart& json, ColourEncoding encoding) {
    constexpr std::size_t most_side = 1'000'000;
    Frame picture;
    picture.name = json.at("name").text();
    picture.width = static_cast<int>(json.at("width").whole(most_side));
    picture.height = static_cast<int>(json.at("height").whole(most_side));
    picture.type = to_sample_type(json.at("samples"));
    picture.encoding = std::move(encoding);
    picture.facts = to_facts(json.at("facts"));
    return picture;
}

ToneCurve to_curve(const JsonPart& json) {
    std::vector<CurvePoint> points;
    for (const JsonPart& point : json.at("points").list(most_curve_points)) {
        const auto [seen, truth, u] = point.numbers<3>(-most_curve_light, most_curve_light);
        points.push_back({seen, truth, std::abs(u)});
    }
    std::optional<double> black;
    if (const auto known = json.find("black")) black = known->number(-1, 1);
    if (points.empty()) json.refuse("has no points");
    const bool sound =
        steps_in_order(points) && std::all_of(points.begin(), points.end(), [&](const CurvePoint& point) {
            return point.truth >= black_truth && point.seen > black.value_or(0.0);
        });
    if (!sound) json.refuse("does not rise from black");
    ToneCurve curve(points, black);
    for (const CurvePoint& point : points)
        if (!std::isfinite(curve(point.seen))) json.refuse("leads to no number");
    return curve;
}

std::array<ToneCurve, 3> to_curves(const JsonPart& json) {
    const auto parts = json.list(3);
    if (parts.size() != 3) json.refuse("has not three curves");
    return {to_curve(parts[0]), to_curve(parts[1]), to_curve(parts[2])};
}

Quad to_corners(const JsonPart& json) {
    const auto parts = json.list(4);
    if (parts.size() != 4) json.refuse("has not four corners");
    Quad corners{};
    for (std::size_t i = 0; i < 4; ++i) {
        const auto [x, y] = parts[i].numbers<2>(-most_corner_place, most_corner_place);
        corners[i] = {x, y};
    }
    return corners;
}

CalibrationUncertainty to_uncertainty(const JsonPart& json) {
    const auto value = [&](const char* key) { return json.at(key).number(0, 10); };
    return {value("step"), value("card"), value("exponent"), value("black")};
}

std::vector<Warning> to_warnings(const JsonPart& json) {
    std::vector<Warning> warnings;
    for (const JsonPart& part : json.list(most_warnings))
        warnings.push_back({part.at("code").text(80), part.at("text").text(1000), part.at("unfit").flag()});
    return warnings;
}

Calibration to_fit(const JsonPart& json) {
    Calibration fit;
    fit.card_name = json.at("card").at("name").text();
    fit.card_corners = to_corners(json.at("card").at("corners"));
    fit.patches = to_readings(json.at("readings"));
    fit.curves = to_curves(json.at("curves"));
    const auto [X, Y, Z] = json.at("white_xyz").numbers<3>(-100, 100);
    fit.white = {X, Y, Z};
    fit.tone_curve = json.at("tone_curve").text();
    fit.characterisation = to_characterisation(json.at("characterisation"));
    const auto [x, y, u] = json.at("light_slope").numbers<3>(-10, 10);
    fit.light = {x, y, std::abs(u)};
    fit.coding = {json.at("coding").at("step").number(0, 1),
                  json.at("coding").at("compression").number(0, 1)};
    fit.uncertainty = to_uncertainty(json.at("uncertainty"));
    fit.warnings = to_warnings(json.at("warnings"));
    return fit;
}

std::optional<FlatField> to_kept_field(const JsonPart& json) {
    const auto field = json.find("flat_field");
    if (!field) return std::nullopt;
    try {
        return to_flat_field(field->json());
    } catch (const InputError& error) {
        field->refuse(error.what());
    }
}

}  // namespace

KeptCalibration read_calibration_1(const JsonPart& json) {
    KeptCalibration kept;
    kept.program = json.at("program").text(80);
    kept.made = json.at("made").text(40);
    kept.picture = to_picture(json.at("picture"), to_encoding(json.at("encoding")));
    static_cast<StatedFacts&>(kept.inputs) = to_stated_facts(json.at("inputs"));
    kept.fit = to_fit(json);
    kept.fit.stated = kept.inputs;
    kept.fit.flat_field = to_kept_field(json);
    kept.chart = to_chart(json.at("chart"));
    return kept;
}

}  // namespace tonemend
