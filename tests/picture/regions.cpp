#include <cmath>
#include <cstdio>
#include <random>

#include "picture/input_error.h"
#include "picture/region.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

double pixels_in(const Region& region) {
    double count = 0;
    for (const Span& span : spans(region)) count += span.last - span.first;
    return count;
}

/// The winding of the polygon round a point, by the angles; independent of how spans are found.
bool holds(const Region& region, double x, double y) {
    double angle = 0;
    for (std::size_t i = 0; i < region.corners.size(); ++i) {
        const Point a = region.corners[i];
        const Point b = region.corners[(i + 1) % region.corners.size()];
        angle +=
            std::remainder(std::atan2(b.y - y, b.x - x) - std::atan2(a.y - y, a.x - x), 2 * std::acos(-1.0));
    }
    return std::abs(angle) > 3;
}

Region star(std::mt19937& random, double radius) {
    std::uniform_real_distribution<double> reach(0.3, 1.0);
    Region region;
    const int corners = 5 + static_cast<int>(random() % 9);
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::acos(-1.0) * i / corners;
        const double r = radius * reach(random);
        region.corners.push_back({300.3 + r * std::cos(angle), 250.7 + r * std::sin(angle)});
    }
    return region;
}

}  // namespace

TEST_CASE("A rectangle's spans are its pixels, exactly") {
    const Region region = parse_region("3,4,5,6", "--original");
    const auto found = spans(region);
    REQUIRE(found.size() == 6);
    for (std::size_t i = 0; i < found.size(); ++i) {
        CHECK(found[i].row == 4 + static_cast<int>(i));
        CHECK(found[i].first == 3);
        CHECK(found[i].last == 8);
    }
    const PixelRect box = bounds(region);
    CHECK(box.x == 3);
    CHECK(box.y == 4);
    CHECK(box.width == 5);
    CHECK(box.height == 6);
    CHECK(area(region) == 30);
}

TEST_CASE("A polygon's spans are the pixels whose centres lie inside, and as many as its area") {
    std::mt19937 random(3);
    double worst = 0;
    for (int trial = 0; trial < 200; ++trial) {
        const Region region = star(random, trial < 20 ? 2.0 : 180.0);
        std::vector<std::uint8_t> inside(600 * 600, 0);
        for (const Span& span : spans(region))
            for (int x = span.first; x < span.last; ++x)
                inside[static_cast<std::size_t>(span.row * 600 + x)] = 1;
        if (trial % 10 == 0) {
            int wrong = 0;
            for (int y = 50; y < 450; ++y)
                for (int x = 100; x < 500; ++x)
                    wrong += inside[static_cast<std::size_t>(y * 600 + x)] != holds(region, x + 0.5, y + 0.5);
            CHECK(wrong == 0);
        }
        if (trial >= 20) worst = std::max(worst, std::abs(pixels_in(region) / area(region) - 1));
    }
    std::printf("spans against area: worst ratio error %.2e\n", worst);
    CHECK(worst < 1.5e-3);
}

TEST_CASE("Polygons that share an edge share no pixel and miss none") {
    const Region left = parse_region("0,0 10.3,0 7.7,20 0,20", "--original");
    const Region right = parse_region("10.3,0 20,0 20,20 7.7,20", "--repair");
    CHECK(pixels_in(left) + pixels_in(right) == 400);
}

TEST_CASE("A polygon smaller than a pixel is a region, with or without a pixel's centre") {
    CHECK(pixels_in(parse_region("4.4,4.4 4.6,4.4 4.5,4.7", "--original")) == 1);
    CHECK(pixels_in(parse_region("4.0,4.0 4.2,4.0 4.1,4.2", "--original")) == 0);
}

TEST_CASE("Regions that make no sense get one line that names the option, the text and the cure") {
    for (const char* text : {"",
                             " ",
                             "1,2,3",
                             "1,2,3,4,5",
                             "a,b,c,d",
                             "1,2,0,4",
                             "1,2,3,0",
                             "1,2,-3,4",
                             "1.5,2,3,4",
                             "nan,1,2,3",
                             "1,2,inf,4",
                             "1e9,2,3,4",
                             "99999999999999999999,1,1,1",
                             "1,2 3,4",
                             "1,2 3,4 5,6",
                             "0,0 10,10 10,0 0,10",
                             "0,0 10,0 10,10 5,0 0,10",
                             "0,0 10,0 5,0 5,10",
                             "1,2 3 5,6",
                             "1,2 3,x 5,6",
                             "0,0 nan,1 1,1",
                             "0,0 0,0 0,0",
                             "1,,2,3",
                             "1,2,3,4\nfoo",
                             "0x10,1,2,3",
                             "+1,1,2,3"}) {
        INFO('"' << text << '"');
        std::string message;
        try {
            parse_region(text, "--original");
        } catch (const InputError& error) {
            message = error.what();
        }
        CHECK(message.starts_with("--original \""));
        CHECK(message.find('\n') == std::string::npos);
        CHECK(message.find("; give") != std::string::npos);
    }
    for (const char* text : {"", "1,2 3,4 5,6", "0,0 10,10 10,0 0,10", "0,0 5,0 10,0 5,5",
                             "0,0 10,0 10,10 0,nan", "0,0 10,0 3,3 0,10"})
        CHECK_THROWS_AS(parse_quad(text, "--card-at"), InputError);
    CHECK_NOTHROW(parse_quad("0,0 10,1 11,10 -1,9", "--card-at"));
}

TEST_CASE("A region must lie in the picture, edges included") {
    CHECK_NOTHROW(require_inside(parse_region("0,0,100,50", "--repair"), 100, 50, "--repair"));
    for (const char* text : {"1,0,100,50", "-1,0,10,10", "0,0 100.5,0 3,3"})
        CHECK_THROWS_AS(require_inside(parse_region(text, "--repair"), 100, 50, "--repair"), InputError);
}
