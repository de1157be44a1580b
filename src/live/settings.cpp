#include "live/settings.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <span>

#include "calibrate/keep/user_folder.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

json to_json(const std::optional<Region>& region) {
    if (!region) return nullptr;
    json corners = json::array();
    for (const Point& corner : region->corners) corners.push_back({corner.x, corner.y});
    return corners;
}

std::optional<Region> to_region(const json& value) {
    if (value.is_null()) return std::nullopt;
    std::string text;
    for (const json& corner : value)
        text += fmt::format("{},{} ", corner.at(0).get<double>(), corner.at(1).get<double>());
    return parse_region(text, "region");  // refuses what is no region
}

Settings from_json(const json& object) {
    Settings s;
    s.source = object.value("source", s.source);
    s.card = object.value("card", s.card);
    s.calibration = object.value("calibration", s.calibration);
    s.store = object.value("store", s.store);
    s.area = object.value("area", s.area);
    s.practice_area = object.value("practice_area", s.practice_area);
    s.light = object.value("light", s.light);
    s.colourants = colourants_named(object.value("colourants", "")).value_or(s.colourants);
    s.tolerance = std::clamp(object.value("tolerance", s.tolerance), 0.05, 20.0);
    s.theme = object.value("theme", "dark") == "light" ? ThemeName::light : ThemeName::dark;
    s.display = object.value("display", s.display);
    s.average = object.value("average", s.average);
    s.tick = object.value("tick", s.tick);
    s.drying = object.value("drying", s.drying);
    s.drying_kind = find_drying_kind(object.value("drying_kind", "")).value_or(s.drying_kind);
    s.drying_every = std::clamp(object.value("drying_every", s.drying_every), 1.0, 3600.0);
    s.walked = object.value("walked", s.walked);
    s.text_scale = std::clamp(object.value("text_scale", 1.0), least_text_scale, greatest_text_scale);
    s.width = std::clamp(object.value("width", s.width), 640, 16384);
    s.height = std::clamp(object.value("height", s.height), 400, 16384);
    const json regions = object.value("regions", json::object());
    s.regions.original = to_region(regions.value("original", json()));
    s.regions.repair = to_region(regions.value("repair", json()));
    s.regions.card = to_region(regions.value("card", json()));
    if (s.regions.card && s.regions.card->corners.size() != 4) s.regions.card.reset();
    s.picture_width = regions.value("picture_width", 0);
    s.picture_height = regions.value("picture_height", 0);
    return s;
}

}  // namespace

fs::path settings_path() {
    return user_folder(UserFolder::settings) / "settings.json";
}

fs::path drying_logs() {
    return user_folder(UserFolder::data) / "drying";
}

LoadedSettings load_settings(const fs::path& path) {
    std::ifstream file(path);
    if (!file) return {};
    try {
        return {from_json(json::parse(file)), ""};
    } catch (const std::exception&) {
        return {Settings{},
                fmt::format("{} is damaged: started with ordinary settings, kept anew from now on",
                            one_line(path.string(), 120))};
    }
}

void save_settings(const Settings& settings, const fs::path& path) {
    json object{{"schema", "tonemend.settings/1"},
                {"source", settings.source},
                {"card", settings.card},
                {"calibration", settings.calibration},
                {"store", settings.store},
                {"area", settings.area},
                {"practice_area", settings.practice_area},
                {"light", settings.light},
                {"colourants", name(settings.colourants)},
                {"tolerance", settings.tolerance},
                {"theme", settings.theme == ThemeName::light ? "light" : "dark"},
                {"display", settings.display},
                {"average", settings.average},
                {"tick", settings.tick},
                {"drying", settings.drying},
                {"drying_kind", wait_of(settings.drying_kind).name},
                {"drying_every", settings.drying_every},
                {"walked", settings.walked},
                {"text_scale", settings.text_scale},
                {"width", settings.width},
                {"height", settings.height},
                {"regions",
                 {{"original", to_json(settings.regions.original)},
                  {"repair", to_json(settings.regions.repair)},
                  {"card", to_json(settings.regions.card)},
                  {"picture_width", settings.picture_width},
                  {"picture_height", settings.picture_height}}}};
    std::error_code failure;
    fs::create_directories(path.parent_path(), failure);
    const std::string text = object.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
    write_whole_file(path, std::as_bytes(std::span(text)));
}

}  // namespace tonemend
