#include "record/kept_reading_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "calibrate/card/homography.h"
#include "calibrate/keep/calibration_json.h"
#include "calibrate/keep/capture_facts_json.h"
#include "calibrate/keep/flat_field_json.h"
#include "calibrate/keep/stated_facts_json.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/comparison_json.h"
#include "record/picture_light_json.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* comparison_schema = "tonemend.comparison/1";
constexpr const char* frame_schema = "tonemend.frame/1";

template <typename Points>
Json corners_json(const Points& corners) {
    Json list = Json::array();
    for (const Point& corner : corners) list.push_back({corner.x, corner.y});
    return list;
}

Json card_json(const FoundCard& card) {
    Json map = Json::array();
    for (const auto& row : card.sheet_to_picture.m)
        for (const double value : row) map.push_back(value);
    return {{"size", card.frame.name},
            {"window", corners_json(card.window)},
            {"sheet_to_picture", map},
            {"markers", card.markers},
            {"corner_error_px", card.corner_error_px},
            {"tilt_degrees", card.tilt_degrees}};
}

[[noreturn]] void refuse_damaged_text() {
    throw InputError("is damaged; bring it back from a copy, or take the reading again");
}

Point to_point(const Json& json) {
    return {json.at(0).get<double>(), json.at(1).get<double>()};
}

Region to_region(const Json& json, const char* role) {
    Region region;
    std::string text;
    for (const Json& corner : json) {
        region.corners.push_back(to_point(corner));
        text += fmt::format("{},{} ", region.corners.back().x, region.corners.back().y);
    }
    (void)parse_region(text, role);  // refuses what is no region
    return region;
}

FoundCard to_card(const Json& json) {
    FoundCard card;
    const auto size = json.at("size").get<std::string>();
    const auto& sizes = card_frames();
    const auto frame =
        std::find_if(sizes.begin(), sizes.end(), [&](const CardFrame& f) { return f.name == size; });
    if (frame == sizes.end()) refuse_damaged_text();
    card.frame = *frame;
    for (std::size_t i = 0; i < 4; ++i) card.window[i] = to_point(json.at("window").at(i));
    for (std::size_t i = 0; i < 9; ++i)
        card.sheet_to_picture.m[i / 3][i % 3] = json.at("sheet_to_picture").at(i).get<double>();
    const Quad window = window_quad(card.frame);
    for (std::size_t i = 0; i < 4; ++i) {
        const Point mapped = map_point(card.sheet_to_picture, window[i]);
        // Written so that what is not a number is refused too.
        if (!(std::hypot(mapped.x - card.window[i].x, mapped.y - card.window[i].y) < 1))
            refuse_damaged_text();
    }
    card.markers = json.at("markers").get<int>();
    card.corner_error_px = json.at("corner_error_px").get<double>();
    card.tilt_degrees = json.at("tilt_degrees").get<double>();
    return card;
}

Lab to_lab(const Json& json) {
    return {json.at(0).get<double>(), json.at(1).get<double>(), json.at(2).get<double>()};
}

Json source_of(const std::string& text) {
    const Json json = Json::parse(text);
    if (!json.contains("frame")) {
        throw InputError(
            "was kept without its picture; only readings taken in the window can be shown again");
    }
    Json source = json.at("frame");
    if (source.at("schema") != frame_schema)
        throw InputError("was kept by another version of this program; open it with that one");
    return source;
}

}  // namespace

Json source_json(const ReadingPicture& source, const std::string& file) {
    const Frame& frame = *source.frame;
    const ColourEncoding& encoding = frame.encoding;
    Json json{{"schema", frame_schema},
              {"file", file},
              {"source", frame.name},
              {"encoding",
               {{"description", encoding.description},
                {"assumed", encoding.assumed},
                {"camera_native", encoding.camera_native},
                {"native_balance", encoding.native_balance}}},
              {"facts", facts_json(frame.facts)},
              {"card", source.card_name},
              {"original", corners_json(source.original.corners)},
              {"repair", corners_json(source.repair.corners)}};
    if (source.card) json["card_frame"] = card_json(*source.card);
    if (source.bare_card) json["card_corners"] = corners_json(*source.bare_card);
    if (source.kept) json["calibration"] = calibration_json(*source.kept);
    if (source.flat_field) json["flat_field"] = flat_field_json(*source.flat_field);
    json["stated"] = stated_json(source.stated);
    return json;
}

Json reading_json(const ReadingToKeep& reading, const std::string& file) {
    Json json = to_json(reading.calibration, reading.comparison);
    json["taken"] = reading.taken;
    json["picture"] = reading.picture;
    if (reading.light) json["picture_light"] = picture_light_json(*reading.light);
    if (reading.source)
        json["frame"] = source_json(*reading.source, file);
    else
        json["stated"] = stated_json(reading.calibration.stated);
    return json;
}

std::optional<KeptReading> kept_reading(const std::string& text) {
    try {
        const Json json = Json::parse(text);
        if (json.at("schema") != comparison_schema) return std::nullopt;
        KeptReading reading;
        reading.taken = json.value("taken", "");
        reading.picture = json.value("picture", "");
        reading.original = to_lab(json.at("original").at("lab"));
        reading.repair = to_lab(json.at("repair").at("lab"));
        reading.de2000 = json.at("difference").at("de2000").get<double>();
        reading.u95 = json.at("difference").at("de2000_u95").get<double>();
        reading.tolerance = json.at("tolerance").get<double>();
        reading.verdict = judge(reading.de2000, reading.u95, reading.tolerance);
        for (const Json& warning : json.value("warnings", Json::array()))
            reading.unfit = reading.unfit || warning.at("unfit").get<bool>();
        reading.has_source = json.contains("frame");
        if (const auto light = JsonPart(json).find("picture_light")) reading.light = to_picture_light(*light);
        return reading;
    } catch (const Json::exception&) {
        return std::nullopt;
    } catch (const InputError&) {
        return std::nullopt;
    }
}

std::string source_file(const std::string& text) {
    try {
        auto file = source_of(text).at("file").get<std::string>();
        // It lies beside the text and nowhere else.
        if (file.empty() || std::filesystem::path(file).filename() != file) refuse_damaged_text();
        return file;
    } catch (const Json::exception&) {
        refuse_damaged_text();
    }
}

ReadingPicture to_source(const std::string& text, Frame frame) {
    try {
        const Json json = source_of(text);
        const Json& encoding = json.at("encoding");
        frame.name = one_line(json.at("source").get<std::string>(), 400);
        frame.encoding.description = one_line(encoding.at("description").get<std::string>(), 200);
        frame.encoding.assumed = encoding.at("assumed").get<bool>();
        frame.encoding.camera_native = encoding.at("camera_native").get<bool>();
        for (std::size_t c = 0; c < 3; ++c)
            frame.encoding.native_balance[c] = encoding.at("native_balance").at(c).get<double>();
        frame.facts = to_facts(JsonPart(json.at("facts"), "facts"));
        ReadingPicture source;
        source.original = to_region(json.at("original"), "the original's region");
        source.repair = to_region(json.at("repair"), "the repair's region");
        require_inside(source.original, frame.width, frame.height, "the original's region");
        require_inside(source.repair, frame.width, frame.height, "the repair's region");
        if (json.contains("card_frame")) source.card = to_card(json.at("card_frame"));
        if (json.contains("card_corners")) {
            const Region corners = to_region(json.at("card_corners"), "the card");
            if (corners.corners.size() != 4) refuse_damaged_text();
            std::copy_n(corners.corners.begin(), 4, source.bare_card.emplace().begin());
        }
        source.card_name = json.at("card").get<std::string>();
        if (json.contains("calibration"))
            source.kept = std::make_shared<const KeptCalibration>(
                to_kept_calibration(JsonPart(json.at("calibration"), "frame.calibration")));
        if (json.contains("flat_field"))
            source.flat_field = std::make_shared<const FlatField>(to_flat_field(json.at("flat_field")));
        if (json.contains("stated"))
            source.stated = to_stated_facts(JsonPart(json.at("stated"), "frame.stated"));
        for (const ColourSample& sample : source.stated.samples)
            require_inside(sample.region, frame.width, frame.height, "the sample's region");
        source.frame = std::make_shared<const Frame>(std::move(frame));
        return source;
    } catch (const Json::exception&) {
        refuse_damaged_text();
    }
}

}  // namespace tonemend
