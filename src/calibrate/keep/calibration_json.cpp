#include "calibrate/keep/calibration_json.h"

#include <fmt/format.h>

#include <array>
#include <nlohmann/json.hpp>

#include "calibrate/keep/calibration_reader.h"
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

using Json = nlohmann::ordered_json;

constexpr std::string_view kind = "tonemend.calibration/";

struct VersionedReader {
    int version;
    KeptCalibration (*read)(const JsonPart&);
};
// A version that was ever written stays here.
constexpr std::array readers{VersionedReader{1, read_calibration_1}};
constexpr int newest = readers.back().version;

Json picture_json(const Frame& picture) {
    constexpr std::array types{"uint8", "uint16", "float32"};
    return {{"name", picture.name},
            {"width", picture.width},
            {"height", picture.height},
            {"samples", types[static_cast<std::size_t>(picture.type)]},
            {"facts", facts_json(picture.facts)}};
}

Json curves_json(const std::array<ToneCurve, 3>& curves) {
    Json list = Json::array();
    for (const ToneCurve& curve : curves) {
        Json points = Json::array();
        for (const CurvePoint& point : curve.points())
            points.push_back({point.seen, point.truth, point.seen_u});
        list.push_back({{"points", points},
                        {"black", curve.known_black() ? Json(*curve.known_black()) : Json(nullptr)}});
    }
    return list;
}

Json warnings_json(const std::vector<Warning>& warnings) {
    Json list = Json::array();
    for (const Warning& warning : warnings)
        list.push_back({{"code", warning.code}, {"text", warning.text}, {"unfit", warning.unfit}});
    return list;
}

}  // namespace

Json calibration_json(const KeptCalibration& kept) {
    const Calibration& fit = kept.fit;
    Json corners = Json::array();
    for (const Point& corner : fit.card_corners) corners.push_back({corner.x, corner.y});
    return {{"schema", fmt::format("{}{}", kind, newest)},
            {"program", kept.program},
            {"made", kept.made},
            {"picture", picture_json(kept.picture)},
            {"encoding", encoding_json(kept.picture.encoding)},
            {"card", {{"name", fit.card_name}, {"corners", corners}}},
            {"inputs", stated_json(kept.inputs)},
            {"readings", readings_json(fit.patches)},
            {"curves", curves_json(fit.curves)},
            {"tone_curve", fit.tone_curve},
            {"white_xyz", {fit.white.X, fit.white.Y, fit.white.Z}},
            {"light_slope", {fit.light.x, fit.light.y, fit.light.u}},
            {"coding", {{"step", fit.coding.step}, {"compression", fit.coding.compression}}},
            {"uncertainty",
             {{"step", fit.uncertainty.step},
              {"card", fit.uncertainty.card},
              {"exponent", fit.uncertainty.exponent},
              {"black", fit.uncertainty.black}}},
            {"characterisation", characterisation_json(fit.characterisation)},
            {"flat_field", fit.flat_field ? flat_field_json(*fit.flat_field) : Json(nullptr)},
            {"warnings", warnings_json(fit.warnings)},
            {"chart", chart_json(kept.chart)}};
}

KeptCalibration to_kept_calibration(const JsonPart& json) {
    const std::string schema = json.at("schema").text(80);
    if (!schema.starts_with(kind)) json.at("schema").refuse("is not that of a calibration");
    for (const VersionedReader& reader : readers)
        if (schema == fmt::format("{}{}", kind, reader.version)) return reader.read(json);
    json.at("schema").refuse(fmt::format("is '{}', and this program reads up to {}{}", schema, kind, newest));
}

}  // namespace tonemend
