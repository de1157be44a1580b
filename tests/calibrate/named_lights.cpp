#include "calibrate/keep/named_lights.h"

#include <thread>

#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::string refused_with(const std::function<void()>& act) {
    try {
        act();
    } catch (const InputError& error) {
        return error.what();
    }
    return "";
}

std::vector<NamedLight> parse_text(const std::string& text) {
    return parse_lights(std::as_bytes(std::span(text)), "lights.json");
}

const NamedLight window{"shop window", "daylight:6500", "", "north side", {}};
const NamedLight bulb{"old bulb", "CIE-A", "clear glass, 40 W", "", LightCheck{"2026-11-26T08:00:00Z", 2790}};

}  // namespace

TEST_CASE("Lights come back from their file as they were kept, and are found in either case of letters") {
    const ScratchFolder folder;
    const auto file = folder / "new/lights.json";
    CHECK(read_lights(file).empty());
    change_lights(file, [](auto& lights) { lights = {window, bulb}; });
    const auto lights = read_lights(file);
    REQUIRE(lights.size() == 2);
    CHECK(lights[0].place == "north side");
    CHECK_FALSE(lights[0].checked);
    CHECK(lights[1].lamp == "clear glass, 40 W");
    REQUIRE(lights[1].checked);
    CHECK(lights[1].checked->kelvin == 2790);
    CHECK(find_light(lights, "Old Bulb") == &lights[1]);
    CHECK(find_light(lights, "bulb") == nullptr);
    CHECK(lights_text(lights) == content_of(file));
}

TEST_CASE("A name becomes the light that is kept for it; a light by itself stays as it is") {
    const ScratchFolder folder;
    const auto file = folder / "lights.json";
    change_lights(file, [](auto& lights) { lights = {window, bulb}; });
    CHECK(resolve_light("old bulb", file) == "CIE-A");
    for (const char* text : {"2700", "2700K", "CIE-D65", "led:3000", ""})
        CHECK(resolve_light(text, file) == text);
    const std::string why = refused_with([&] { resolve_light("kitchen", file); });
    CHECK(why.find("'kitchen'") != std::string::npos);
    CHECK(why.find("shop window, old bulb") != std::string::npos);
    CHECK(refused_with([&] { resolve_light("kitchen", folder / "none.json"); }).find("tonemend lights add") !=
          std::string::npos);
}

TEST_CASE("A name that could be taken for a light, or does not show, is refused") {
    for (const char* name : {"a", "Küche", "lamp 2", "north_window.1"})
        CHECK(refused_with([&] { require_light_name(name); }).empty());
    for (const char* name : {"", "2700", "CIE-A", "led:3000", " lamp", "lamp ", "lamp\n2", "-x",
                             "a name that is longer than forty letters can be"})
        CHECK_FALSE(refused_with([&] { require_light_name(name); }).empty());
}

TEST_CASE("A damaged file is refused in one line that names it, and stays as it is") {
    const std::string head = R"({"schema": "tonemend.lights/1", "lights": [)";
    const std::string one = R"({"name": "old bulb", "light": "CIE-A"})";
    CHECK(parse_text(head + one + "]}").size() == 1);
    for (const std::string& text :
         {std::string(), std::string("{"), std::string("[]"),
          std::string(R"({"schema": "other", "lights": []})"), head + one + "," + one + "]}",
          head + R"({"name": "2700", "light": "CIE-A"}]})",
          head + R"({"name": "old bulb", "light": "moon"}]})", head + R"({"name": "old bulb"}]})",
          head + R"({"name": "x", "light": "CIE-A", "checked": {"when": "now", "kelvin": 1e9}}]})"}) {
        const std::string why = refused_with([&] { parse_text(text); });
        CHECK(why.starts_with("lights.json: "));
        CHECK(why.find('\n') == std::string::npos);
    }
    const ScratchFolder folder;
    put_content(folder / "lights.json", "{ damaged");
    CHECK_FALSE(refused_with([&] { change_lights(folder / "lights.json", [](auto&) {}); }).empty());
    CHECK(content_of(folder / "lights.json") == "{ damaged");
}

TEST_CASE("Lights that several programs keep at once are all there afterwards") {
    const ScratchFolder folder;
    const auto file = folder / "lights.json";
    std::vector<std::thread> programs;
    for (int i = 0; i < 8; ++i)
        programs.emplace_back([&file, i] {
            change_lights(file, [i](auto& lights) {
                lights.push_back({"lamp " + std::to_string(i), "CIE-A", "", "", {}});
            });
        });
    for (std::thread& program : programs) program.join();
    CHECK(read_lights(file).size() == 8);
}
