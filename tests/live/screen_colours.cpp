// The window's own colours on a display, and what the overlays are held against.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "colour/srgb_display.h"
#include "live/display_choice.h"
#include "live/display_profile.h"
#include "live/overlay_choice.h"
#include "live/screen_colours.h"
#include "practice/render.h"
#include "tests/catch.h"
#include "tests/live/display_samples.h"

using namespace tonemend;

namespace {

int distance(const Shade& a, const std::array<std::uint8_t, 3>& b) {
    return std::max({std::abs(a.r - b[0]), std::abs(a.g - b[1]), std::abs(a.b - b[2])});
}

BenchState measured_bench() {
    PracticeOptions options;
    options.width = 1280, options.height = 720, options.bits = 8;
    options.difference = 4;
    const PracticeScene scene = make_scene(options);
    BenchState state;
    state.frame = state.measured = std::make_shared<const Frame>(render(scene));
    state.calibration = std::make_shared<const Calibration>(
        calibrate_on_card(*state.frame, read_card(locate_card("six-step-card")), *find_card(*state.frame)));
    state.comparison = compare_regions(*state.frame, *state.calibration, rectangle(scene.original.region),
                                       rectangle(scene.repair.region));
    return state;
}

}  // namespace

TEST_CASE("A swatch on a display without a profile has the code that sRGB gives its colour") {
    // IEC 61966-2-1 through to_srgb8, which has tests of its own.
    const ScreenColours colours(make_srgb_display_table());
    int worst = 0;
    for (double L = 10; L <= 90; L += 8)
        for (double a = -10; a <= 30; a += 8)
            for (double b = -10; b <= 30; b += 8)
                worst = std::max(worst, distance(colours.shade_of(Lab{L, a, b}), to_srgb8({L, a, b})));
    fmt::print("swatches: worst step {}\n", worst);
    CHECK(worst <= 1);
}

TEST_CASE("The theme on a display without a profile is the theme as written") {
    const ScreenColours colours(make_srgb_display_table());
    for (const ThemeName name : {ThemeName::light, ThemeName::dark}) {
        const Theme shown = colours.theme_of(name), written = theme(name);
        CHECK(distance(shown.surround, {written.surround.r, written.surround.g, written.surround.b}) <= 1);
        CHECK(distance(shown.touch, {written.touch.r, written.touch.g, written.touch.b}) <= 1);
        CHECK(distance(shown.ink, {written.ink.r, written.ink.g, written.ink.b}) <= 1);
    }
}

TEST_CASE("A profile that cannot be used leaves sRGB and says so in one line") {
    const DisplayChoice choice = choose_display("/nonexistent/screen.icc", 0);
    CHECK_THAT(choice.trouble, contains("screen.icc"));
    CHECK(choice.trouble.find('\n') == std::string::npos);
    CHECK_THAT(choice.name, contains("sRGB"));
    CHECK(choice.table.encode({0, 0, 0})[0] == 0);
}

TEST_CASE("An overlay is held against the original's reading, and is off while there is none") {
    CHECK(hold_overlay(Overlay::difference, BenchState{}).kind == Overlay::none);
    BenchState state = measured_bench();
    const Comparison& comparison = *state.comparison;
    const OverlaySettings difference = hold_overlay(Overlay::difference, state);
    CHECK(difference.kind == Overlay::difference);
    CHECK(difference.reference.L == comparison.original.ground.L);
    // The gauges are the reading's own: its median colour is no glare, its split parts ground from figure.
    const OverlaySettings glare = hold_overlay(Overlay::glare, state);
    CHECK(glare.glare.limit > glare.glare.centre);
    const Vector3& mean = comparison.original.sampled.mean;
    CHECK(neutral_excess(glare.glare, mean) < 1);
    const OverlaySettings evenness = hold_overlay(Overlay::evenness, state);
    const double Y = to_xyz(comparison.original.lab, d50_icc).Y;
    CHECK(light_departure(evenness.plane, Y, 10, 700) == Approx(0).margin(1e-12));
    const OverlaySettings blend = hold_overlay(Overlay::blend, state);
    CHECK(lightness_over(blend.blend_level, to_xyz(comparison.repair.lab, d50_icc).Y) ==
          Approx(0).margin(1e-9));
    REQUIRE(comparison.original.split);
    const OverlaySettings figure = hold_overlay(Overlay::figure, state);
    CHECK(is_figure(figure.figure, comparison.original.split->figure));
    CHECK_FALSE(is_figure(figure.figure, comparison.original.split->ground));
    state.comparison.reset();
    CHECK(hold_overlay(Overlay::clipping, state).kind == Overlay::clipping);
    CHECK(hold_overlay(Overlay::figure, state).kind == Overlay::none);
}

TEST_CASE("Every overlay has a legend whose ends say what the colours mean") {
    const BenchState state = measured_bench();
    int overlays = 0;
    for (Overlay overlay = next(Overlay::none); overlay != Overlay::none; overlay = next(overlay)) {
        const OverlaySettings settings = hold_overlay(overlay, state);
        const Legend legend = legend_of(settings, state);
        INFO(name(overlay));
        CHECK_FALSE(legend.title.empty());
        CHECK(legend.marks.size() >= 2);
        ++overlays;
    }
    CHECK(overlays == 6);
    const Legend difference = legend_of(hold_overlay(Overlay::difference, state), state);
    CHECK(difference.marks.front().words == "0");
    CHECK(difference.marks.back().words == "10");
    const Legend light = legend_of(hold_overlay(Overlay::evenness, state), state);
    CHECK(light.marks.front().words == "−20 %");
    CHECK(light.marks[2].words == "0 %");
    CHECK(light.marks.back().words == "+20 %");
}
