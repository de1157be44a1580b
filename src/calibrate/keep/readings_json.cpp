#include "calibrate/keep/readings_json.h"

#include <nlohmann/json.hpp>

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t most_patches = 2000, most_wavelengths = 2000, most_corners = 1000;
constexpr std::size_t most_pixels_in_patch = 1'000'000'000;
constexpr double most_light = 1000, most_place = 1e6;

Json patch_json(const Patch& patch) {
    Json json{{"name", patch.name},
              {"rectangle", {patch.x0, patch.y0, patch.x1, patch.y1}},
              {"lab", {patch.lab.L, patch.lab.a, patch.lab.b}}};
    if (!patch.reflectance.empty())
        json["reflectance"] = {{"start_nm", patch.reflectance.start_nm},
                               {"step_nm", patch.reflectance.step_nm},
                               {"values", patch.reflectance.values}};
    return json;
}

Spectrum to_spectrum(const JsonPart& json) {
    Spectrum spectrum;
    spectrum.start_nm = json.at("start_nm").number(100, 10000);
    spectrum.step_nm = json.at("step_nm").number(0.01, 1000);
    const JsonPart values = json.at("values");
    const std::size_t count = values.list(most_wavelengths).size();
    if (count < 2) values.refuse("has fewer than two values");
    spectrum.values = values.numbers(count, 0, 2);
    return spectrum;
}

Patch to_patch(const JsonPart& json) {
    Patch patch;
    patch.name = json.at("name").text();
    const auto [x0, y0, x1, y1] = json.at("rectangle").numbers<4>(0, 1);
    if (!(x0 < x1 && y0 < y1)) json.at("rectangle").refuse("is empty");
    patch.x0 = x0, patch.y0 = y0, patch.x1 = x1, patch.y1 = y1;
    const auto [L, a, b] = json.at("lab").numbers<3>(-150, 150);
    if (L < 0 || L > 100) json.at("lab").refuse("has an L* that is not between 0 and 100");
    patch.lab = {L, a, b};
    if (const auto reflectance = json.find("reflectance")) patch.reflectance = to_spectrum(*reflectance);
    return patch;
}

Json reading_json(const PatchReading& reading) {
    Json area = Json::array();
    for (const Point& corner : reading.area.corners) area.push_back({corner.x, corner.y});
    return {{"patch", patch_json(reading.patch)},
            {"area", area},
            {"mean", reading.mean},
            {"mean_u", reading.mean_u},
            {"spread", reading.spread},
            {"light", reading.light},
            {"pixels", reading.pixels},
            {"outliers", reading.outliers},
            {"clipped", reading.clipped},
            {"slope", {reading.slope_x, reading.slope_y, reading.slope_u}}};
}

PatchReading to_reading(const JsonPart& json) {
    PatchReading reading;
    reading.patch = to_patch(json.at("patch"));
    for (const JsonPart& corner : json.at("area").list(most_corners)) {
        const auto [x, y] = corner.numbers<2>(-most_place, most_place);
        reading.area.corners.push_back({x, y});
    }
    reading.mean = json.at("mean").numbers<3>(-most_light, most_light);
    reading.mean_u = json.at("mean_u").numbers<3>(0, most_light);
    reading.spread = json.at("spread").numbers<3>(0, most_light);
    if (const auto light = json.find("light")) reading.light = light->numbers<3>(1e-3, 1e3);
    reading.pixels = json.at("pixels").whole(most_pixels_in_patch);
    reading.outliers = json.at("outliers").whole(most_pixels_in_patch);
    reading.clipped = json.at("clipped").whole(most_pixels_in_patch);
    const auto [x, y, u] = json.at("slope").numbers<3>(-most_light, most_light);
    reading.slope_x = x, reading.slope_y = y, reading.slope_u = u;
    return reading;
}

}  // namespace

Json readings_json(const std::vector<PatchReading>& readings) {
    Json list = Json::array();
    for (const PatchReading& reading : readings) list.push_back(reading_json(reading));
    return list;
}

std::vector<PatchReading> to_readings(const JsonPart& json) {
    std::vector<PatchReading> readings;
    for (const JsonPart& part : json.list(most_patches)) readings.push_back(to_reading(part));
    return readings;
}

}  // namespace tonemend
