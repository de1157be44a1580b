#include "record/report/report_plot.h"

#include <algorithm>
#include <cmath>

#include "record/report/plot_scale.h"
#include "record/report/svg_drawing.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

template <typename Part>
std::vector<Part> parts_of(const ReportDrawing& drawing) {
    std::vector<Part> parts;
    for (const DrawnPart& part : drawing.parts)
        if (const auto* found = std::get_if<Part>(&part)) parts.push_back(*found);
    return parts;
}

ReportPoint reading_at(int number, const Lab& repair, bool unfit = false) {
    return {number, {50, 10, 20}, repair, std::array<double, 3>{0.5, 0.4, 0.6}, unfit};
}

std::vector<DrawnDisc> discs_of(const ReportDrawing& drawing, bool filled) {
    auto discs = parts_of<DrawnDisc>(drawing);
    std::erase_if(discs, [&](const DrawnDisc& disc) { return disc.filled != filled; });
    return discs;
}

bool says(const ReportDrawing& drawing, const std::string& what) {
    const auto words = parts_of<DrawnWords>(drawing);
    return std::any_of(words.begin(), words.end(),
                       [&](const DrawnWords& word) { return word.text.find(what) != std::string::npos; });
}

}  // namespace

TEST_CASE("In the plot of a* and b* redder is right, yellower is up, and both have one scale") {
    const auto plot =
        draw_ab_plot({reading_at(1, {40, 14, 20}), reading_at(2, {45, 10, 24})}, report_palette(false));
    REQUIRE(plot);
    const auto original = discs_of(*plot, false), repair = discs_of(*plot, true);
    REQUIRE(original.size() == 1);
    REQUIRE(repair.size() == 2);
    const Point centre = original[0].centre;
    CHECK(repair[0].centre.y == Approx(centre.y));
    CHECK(repair[1].centre.x == Approx(centre.x));
    // Four units to the right, and four upwards: y goes downwards.
    CHECK(repair[0].centre.x > centre.x);
    CHECK(repair[0].centre.x - centre.x == Approx(centre.y - repair[1].centre.y));
    for (const char* word : {"greener", "redder", "yellower", "bluer", "CIELAB units"})
        CHECK(says(*plot, word));
    CHECK(says(*plot, "1"));
    CHECK(says(*plot, "2"));
}

TEST_CASE("In the plot of L* lighter is up, and the original is a dashed line in its band") {
    const auto plot = draw_lightness_plot({reading_at(1, {40, 14, 20}), reading_at(2, {55, 10, 24})},
                                          report_palette(false));
    REQUIRE(plot);
    const auto repair = discs_of(*plot, true);
    REQUIRE(repair.size() == 2);
    CHECK(repair[1].centre.y < repair[0].centre.y);
    CHECK(repair[1].centre.x > repair[0].centre.x);
    auto paths = parts_of<DrawnPath>(*plot);
    const auto level = std::find_if(paths.begin(), paths.end(),
                                    [](const DrawnPath& path) { return path.line == LineStyle::dashed; });
    const auto band =
        std::find_if(paths.begin(), paths.end(), [](const DrawnPath& path) { return path.filled; });
    REQUIRE(level != paths.end());
    REQUIRE(band != paths.end());
    // L* 40 and 55 tell the scale: the level is at 50, the band from 49.5 to 50.5.
    const double unit = (repair[0].centre.y - repair[1].centre.y) / 15;
    CHECK(level->corners[0].y == Approx(repair[0].centre.y - 10 * unit));
    const auto [top, bottom] = std::minmax_element(band->corners.begin(), band->corners.end(),
                                                   [](const Point& p, const Point& q) { return p.y < q.y; });
    CHECK(bottom->y - top->y == Approx(unit));
    for (const char* word : {"lighter", "darker", "CIELAB units"}) CHECK(says(*plot, word));
}

TEST_CASE("Where the original's ± is not known the plot of L* has no band") {
    std::vector<ReportPoint> points;
    for (int number = 1; number <= 4; ++number) points.push_back(reading_at(number, {45, 10, 24}));
    points[1].original_u95.reset();
    const auto plot = draw_lightness_plot(points, report_palette(false));
    auto bands = parts_of<DrawnPath>(plot.value());
    std::erase_if(bands, [](const DrawnPath& path) { return !path.filled; });
    const auto discs = discs_of(*plot, true);
    REQUIRE(bands.size() == 2);
    const auto covers = [&](const DrawnPath& band, std::size_t reading) {
        const auto [left, right] =
            std::minmax_element(band.corners.begin(), band.corners.end(),
                                [](const Point& p, const Point& q) { return p.x < q.x; });
        return left->x < discs.at(reading).centre.x && discs.at(reading).centre.x < right->x;
    };
    CHECK(covers(bands[0], 0));
    CHECK_FALSE(covers(bands[0], 1));
    CHECK_FALSE(covers(bands[1], 1));
    CHECK(covers(bands[1], 2));
    CHECK(covers(bands[1], 3));
    points[0].original_u95.reset(), points[2].original_u95.reset(), points[3].original_u95.reset();
    for (const DrawnPath& path :
         parts_of<DrawnPath>(draw_lightness_plot(points, report_palette(false)).value()))
        CHECK_FALSE(path.filled);
}

TEST_CASE("An unfit reading is hollow in the plots") {
    const ReportPalette palette = report_palette(false);
    const auto plot =
        draw_lightness_plot({reading_at(1, {40, 14, 20}), reading_at(2, {45, 10, 24}, true)}, palette);
    const auto discs = discs_of(plot.value(), true);
    CHECK(discs.at(0).fill == palette.accent);
    CHECK(discs.at(1).fill == palette.paper);
}

TEST_CASE("Where discs lie over each other the latest reading's number shows alone") {
    const auto numbers = [](const std::vector<ReportPoint>& points) {
        std::string all;
        for (const DrawnWords& words :
             parts_of<DrawnWords>(draw_ab_plot(points, report_palette(false)).value()))
            if (words.bold) all += words.text + " ";
        return all;
    };
    CHECK(numbers({reading_at(1, {40, 14, 20}), reading_at(2, {40, 11, 20}),
                   reading_at(3, {40, 11.1, 20})}) == "1 3 ");
    CHECK(numbers({reading_at(1, {40, 14, 20}), reading_at(2, {40, 12, 20}), reading_at(3, {40, 10, 20})}) ==
          "1 2 3 ");
}

TEST_CASE("Everything in a plot lies within it, whatever the readings are") {
    for (const double reach : {0.0, 0.01, 3.0, 120.0}) {
        std::vector<ReportPoint> points;
        for (int i = 1; i <= 40; ++i)
            points.push_back(reading_at(
                i, {50 + reach * std::sin(i), 10 + reach * std::cos(3 * i), 20 - reach * std::sin(2 * i)}));
        for (const auto& plot : {draw_ab_plot(points, report_palette(false)),
                                 draw_lightness_plot(points, report_palette(false))})
            for (const DrawnDisc& disc : parts_of<DrawnDisc>(plot.value())) {
                CHECK(disc.centre.x - disc.radius > 30);
                CHECK(disc.centre.x + disc.radius < plot->width);
                CHECK(disc.centre.y - disc.radius > 10);
                CHECK(disc.centre.y + disc.radius < 265);
            }
    }
}

TEST_CASE("Readings whose colour is none are left out of the plots") {
    const ReportPalette palette = report_palette(false);
    CHECK_FALSE(draw_ab_plot({}, palette));
    CHECK_FALSE(draw_lightness_plot({reading_at(1, {std::nan(""), 0, 0})}, palette));
    CHECK_FALSE(draw_ab_plot({reading_at(1, {50, 1e300, 0})}, palette));
    CHECK(draw_ab_plot({reading_at(1, {50, 1, 0}), reading_at(2, {50, 1e300, 0})}, palette));
}

TEST_CASE("Axes are marked at round values, and at seven of them at most") {
    for (const double span : {0.0, 4.0, 7.3, 22.0, 61.0, 300.0}) {
        const PlotScale scale = plot_scale(40, 40 + span, 0, 100);
        CHECK(scale(40) >= 0);
        CHECK(scale(40 + span) <= 100);
        REQUIRE(scale.ticks.size() >= 2);
        CHECK(scale.ticks.size() <= 8);
        const double step = scale.ticks[1] - scale.ticks[0];
        const double digit = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
        CHECK((std::abs(digit - 1) < 1e-6 || std::abs(digit - 2) < 1e-6 || std::abs(digit - 5) < 1e-6));
    }
    CHECK(tick_text(-2) == "−2");
    CHECK(tick_text(0.5) == "0.5");
    CHECK(tick_text(-1e-15) == "0");
}

TEST_CASE("Each verdict has a shape of its own, and lights' verdicts share them") {
    const ReportPalette palette = report_palette(false);
    std::vector<std::string> shapes;
    for (const char* verdict : {"match", "close", "off", "undecided", "unfit"}) {
        const std::string shape = svg_of(draw_mark(mark_of(verdict), palette), "m");
        CHECK(std::find(shapes.begin(), shapes.end(), shape) == shapes.end());
        shapes.push_back(shape);
    }
    CHECK(mark_of("holds") == mark_of("match"));
    CHECK(mark_of("caution") == mark_of("close"));
    CHECK(mark_of("alarm") == mark_of("off"));
    CHECK(draw_mark(mark_of("else"), palette).parts.empty());
}
