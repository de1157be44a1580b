#include "calibrate/keep/named_lights.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <system_error>

#include "calibrate/keep/folder_lock.h"
#include "calibrate/keep/json_part.h"
#include "calibrate/keep/user_folder.h"
#include "calibrate/model/stated_light.h"
#include "picture/file_bytes.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

constexpr const char* schema = "tonemend.lights/1";
constexpr std::size_t most_lights_bytes = 1 << 20, most_lights = 1000, longest_name = 40, longest_words = 200;

bool ascii_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool letter(char c) {
    return ascii_letter(c) || static_cast<unsigned char>(c) >= 0x80;
}
bool same_name(const std::string& p, const std::string& q) {
    return in_small_letters(p) == in_small_letters(q);
}

Json light_json(const NamedLight& light) {
    return {{"name", light.name},
            {"light", light.light},
            {"lamp", light.lamp},
            {"place", light.place},
            {"checked", light.checked ? Json{{"when", light.checked->when}, {"kelvin", light.checked->kelvin}}
                                      : Json(nullptr)}};
}

NamedLight to_named_light(const JsonPart& part) {
    NamedLight light;
    light.name = part.at("name").raw_text();
    light.light = part.at("light").raw_text();
    require_light_name(light.name);
    parse_light(light.light);
    if (const auto lamp = part.find("lamp")) light.lamp = lamp->text(longest_words);
    if (const auto place = part.find("place")) light.place = place->text(longest_words);
    if (const auto checked = part.find("checked"))
        light.checked = LightCheck{checked->at("when").text(40), checked->at("kelvin").number(1000, 25000)};
    return light;
}

std::vector<NamedLight> to_lights(const JsonPart& text) {
    if (text.at("schema").raw_text() != schema) text.at("schema").refuse(fmt::format("is not {}", schema));
    std::vector<NamedLight> lights;
    for (const JsonPart& part : text.at("lights").list(most_lights)) {
        NamedLight light = to_named_light(part);
        if (find_light(lights, light.name) != nullptr) part.refuse("has the name of another light");
        lights.push_back(std::move(light));
    }
    return lights;
}

[[noreturn]] void refuse_lights(const std::string& file, const std::string& what) {
    throw InputError(
        fmt::format("{}: cannot be read as a list of lights: {}; mend it, or move it away and "
                    "add the lights anew with 'tonemend lights add'",
                    one_line(file, 400), what));
}

}  // namespace

void require_light_name(const std::string& name) {
    const bool sound =
        !name.empty() && name.size() <= longest_name && letter(name.front()) && name.back() != ' ' &&
        std::all_of(name.begin(), name.end(), [](char c) {
            return letter(c) || (c >= '0' && c <= '9') || c == ' ' || c == '-' || c == '_' || c == '.';
        });
    if (!sound || name.starts_with("CIE-"))
        throw InputError(
            fmt::format("'{}' can't name a light: give 1 to {} letters, digits, blanks, '-', '_' or '.', a "
                        "letter first, and no CIE- in front; for example: shop window",
                        one_line(name, 60), longest_name));
}

fs::path standing_lights() {
    return user_folder(UserFolder::data) / "lights.json";
}

std::string lights_text(const std::vector<NamedLight>& lights) {
    Json list = Json::array();
    for (const NamedLight& light : lights) list.push_back(light_json(light));
    return Json{{"schema", schema}, {"lights", list}}.dump(2, ' ', false, Json::error_handler_t::replace) +
           "\n";
}

std::vector<NamedLight> parse_lights(std::span<const std::byte> text, const std::string& file) {
    if (text.size() > most_lights_bytes) refuse_lights(file, "it is larger than 1 MiB");
    const auto* const first = reinterpret_cast<const char*>(text.data());
    try {
        const Json json = Json::parse(first, first + text.size());
        return to_lights(JsonPart(json));
    } catch (const Json::exception&) {
        refuse_lights(file, "it is no whole JSON text");
    } catch (const InputError& error) {
        refuse_lights(file, error.what());
    }
}

std::vector<NamedLight> read_lights(const fs::path& path) {
    std::error_code failure;
    if (fs::symlink_status(path, failure).type() == fs::file_type::not_found) return {};
    if (fs::file_size(path, failure) > most_lights_bytes && !failure)
        refuse_lights(path.string(), "it is larger than 1 MiB");
    return parse_lights(read_file_bytes(path).span(), path.string());
}

void change_lights(const fs::path& path, const std::function<void(std::vector<NamedLight>&)>& change) {
    std::error_code failure;
    if (path.has_parent_path()) fs::create_directories(path.parent_path(), failure);
    const FolderLock lock(path);
    std::vector<NamedLight> lights = read_lights(path);
    change(lights);
    const std::string text = lights_text(lights);
    write_whole_file(path, std::as_bytes(std::span(text)));
}

const NamedLight* find_light(const std::vector<NamedLight>& lights, const std::string& name) {
    const auto found = std::find_if(lights.begin(), lights.end(),
                                    [&](const NamedLight& light) { return same_name(light.name, name); });
    return found == lights.end() ? nullptr : &*found;
}

bool is_light_name(const std::string& text) {
    return !text.empty() && letter(text.front()) && !text.starts_with("CIE-") &&
           text.find(':') == std::string::npos;
}

std::string resolve_light(const std::string& text, const fs::path& path) {
    if (!is_light_name(text)) return text;
    const std::vector<NamedLight> lights = read_lights(path);
    if (const NamedLight* found = find_light(lights, text)) return found->light;
    std::vector<std::string> names;
    for (const NamedLight& light : lights) names.push_back(light.name);
    throw InputError(fmt::format(
        "'{}' is no light: give a colour temperature such as 2700, a CIE illuminant such as CIE-A, "
        "planckian:2856, daylight:5500 or led:3000, or the name of a kept light ({})",
        one_line(text, 60),
        names.empty() ? "none is kept: 'tonemend lights add' keeps one"
                      : fmt::format("{}", fmt::join(names, ", "))));
}

}  // namespace tonemend
