// What comes back at the next start, and what the keys mean.
#include <GLFW/glfw3.h>

#include <fstream>
#include <set>

#include "calibrate/model/stated_light.h"
#include "live/actions.h"
#include "live/coat.h"
#include "live/light_choice.h"
#include "live/settings.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using tonemend::testing::ScratchFolder;

namespace fs = std::filesystem;

TEST_CASE("Settings come back as they were kept") {
    const ScratchFolder scratch;
    const fs::path path = scratch.path() / "deep" / "settings.json";
    Settings settings;
    settings.source = "/dev/video3";
    settings.store = "/somewhere/some jobs.sqlite";
    settings.area = "0193";
    settings.practice_area = "0194";
    settings.light = "led:2700";
    settings.colourants = RepairColourants::same;
    settings.tolerance = 0.7;
    settings.theme = ThemeName::light;
    settings.text_scale = 1.5;
    settings.width = 1900;
    settings.display = "/srv/screen.icc";
    settings.average = false;
    settings.tick = settings.walked = true;
    settings.regions.card = Region{{{5, 5}, {90, 6}, {91, 70}, {4, 71}}};
    settings.regions.original = rectangle({10, 20, 300, 200});
    settings.regions.repair = Region{{{400, 20}, {500, 25.5}, {450, 200}}};
    settings.picture_width = 1920;
    save_settings(settings, path);
    const LoadedSettings loaded = load_settings(path);
    CHECK(loaded.notice.empty());
    const Settings& back = loaded.settings;
    CHECK(back.source == settings.source);
    CHECK(back.store == settings.store);
    CHECK(back.area == settings.area);
    CHECK(back.practice_area == settings.practice_area);
    CHECK(back.light == settings.light);
    CHECK(back.colourants == settings.colourants);
    CHECK(back.tolerance == settings.tolerance);
    CHECK(back.theme == settings.theme);
    CHECK(back.text_scale == settings.text_scale);
    CHECK(back.width == settings.width);
    CHECK(back.display == settings.display);
    CHECK_FALSE(back.average);
    CHECK(back.tick);
    CHECK(back.walked);
    REQUIRE(back.regions.card);
    CHECK(back.regions.card->corners[2].x == 91);
    REQUIRE(back.regions.repair);
    CHECK(back.regions.repair->corners[1].y == 25.5);
    CHECK(bounds(*back.regions.original).width == 300);
    CHECK(back.picture_width == 1920);
}

TEST_CASE(
    "A damaged settings file gives ordinary settings and one line that says so, a missing one gives no "
    "line") {
    const ScratchFolder scratch;
    const fs::path path = scratch.path() / "settings.json";
    CHECK(load_settings(path).notice.empty());
    for (const char* damage :
         {"", "{", "[]", "{\"width\": \"wide\"}", "{\"regions\": {\"original\": [[1,2]]}}",
          "{\"regions\": {\"original\": [[0,0],[9,9],[9,0],[0,9]]}}", "\xff\xfe"}) {
        std::ofstream(path) << damage;
        INFO(damage);
        const LoadedSettings loaded = load_settings(path);
        CHECK(loaded.notice.find("settings.json") != std::string::npos);
        CHECK(loaded.notice.find('\n') == std::string::npos);
        CHECK(loaded.settings.width == Settings{}.width);
    }
}

TEST_CASE("Numbers out of range in the settings are brought into it") {
    const ScratchFolder scratch;
    const fs::path path = scratch.path() / "settings.json";
    std::ofstream(path) << R"({"text_scale": 90, "width": 3, "tolerance": -1})";
    const Settings settings = load_settings(path).settings;
    CHECK(settings.text_scale == greatest_text_scale);
    CHECK(settings.width == 640);
    CHECK(settings.tolerance == 0.05);
}

TEST_CASE("Every action that the page of keys names has that key, and no key means two things") {
    std::set<std::string_view> keys;
    for (const ActionHelp& line : action_help()) {
        INFO(line.word);
        CHECK_FALSE(line.key.empty());
        CHECK(keys.insert(line.key).second);
        if (line.key.size() == 1)
            CHECK(find_action(static_cast<unsigned char>(line.key[0]), Modifier::none) == line.action);
    }
    CHECK(find_action(GLFW_KEY_PAGE_DOWN, Modifier::none) == Action::take_reading);  // presenters
    CHECK(find_action(GLFW_KEY_SPACE, Modifier::none) == Action::take_reading);
    CHECK_FALSE(find_action('Q', Modifier::none));
}

TEST_CASE("The key of the lamp goes through lights that can be stated, and back to none") {
    std::string light;
    std::set<std::string> seen, words;
    do {
        if (!light.empty()) CHECK(parse_light(light).kelvin > 0);
        CHECK(seen.insert(light).second);
        CHECK(words.insert(light_words(light).whole).second);
        CHECK(light_words(light).brief.size() <= light_words(light).whole.size());
        light = light_after(light);
    } while (!light.empty());
    CHECK(seen.size() == 6);
    CHECK(light_after("led:3333").empty());
    CHECK(light_words("led:3333").whole == "led:3333");
    CHECK(light_words("led:3333").brief == "3333");
    CHECK(next(next(next(RepairColourants::earth))) == RepairColourants::earth);
}

TEST_CASE("A coat's time is short: the hour today, the day this year, the year before") {
    // Noon UTC, so that no time zone between −11 and +11 hours moves the day.
    const std::string now = "2026-11-25T12:30:00Z";
    CHECK(short_time("2026-11-25T12:05:00Z", now).substr(2) == ":05");
    CHECK(short_time("2026-03-02T12:00:00Z", now) == "2 Mar");
    CHECK(short_time("2025-03-02T12:00:00Z", now) == "2 Mar 2025");
    CHECK(short_time("no time", now).empty());
}
