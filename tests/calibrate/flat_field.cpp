// The light is known here because the scene is computed: the inverse-square law and Lambert's cosine law for
// a small lamp at height h above a plane, E ∝ h / r³ (CIE S 017:2020 ILV, 17-21-024 and 17-24-022).
#include "calibrate/flat/fit_flat_field.h"

#include <cmath>
#include <random>

#include "calibrate/flat/flat_grid.h"
#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/painted_frame.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr int width = 480, height = 360;

using Light = std::function<double(double, double)>;

// A lamp at a height above a place; all in picture widths.
Light small_lamp(double x, double y, double above) {
    return [=](double px, double py) {
        const double r = std::hypot(px / width - x, py / width - y, above);
        return above * above * above / (r * r * r);
    };
}

// A grey sheet under that light; `more` changes single pixels.
Frame sheet(
    const Light& light, const std::function<double(int, int)>& more = [](int, int) { return 1.0; }) {
    return paint_frame(width, height, [&](int x, int y) {
        const double Y = 0.4 * light(x + 0.5, y + 0.5) * more(x, y);
        return to_lab({d50_icc.X * Y, Y, d50_icc.Z * Y}, d50_icc);
    });
}

std::array<ToneCurve, 3> straight_curves() {
    const ToneCurve curve({{1.0, 1.0, 0.0}});
    return {curve, curve, curve};
}

FlatField fit(const Frame& frame) {
    return fit_flat_field(sample_sheet(frame), straight_curves(), {width / 2.0, height / 2.0});
}

// The farthest that the field is from the light, relative, over the whole picture.
double worst_gain_error(const FlatField& field, const Light& light) {
    double worst = 0;
    for (int y = 5; y < height; y += 10)
        for (int x = 5; x < width; x += 10) {
            const double truth = light(x, y) / light(width / 2.0, height / 2.0);
            for (const double value : field.light_at({static_cast<double>(x), static_cast<double>(y)}))
                worst = std::max(worst, std::abs(value / truth - 1));
        }
    return worst;
}

std::string sheet_refusal(const Frame& frame) {
    try {
        (void)fit(frame);
    } catch (const InputError& error) {
        return error.what();
    }
    return "";
}

std::function<double(int, int)> texture(double deviation) {
    auto engine = std::make_shared<std::mt19937>(7);
    return [engine, normal = std::normal_distribution<double>(1, deviation)](int, int) mutable {
        return normal(*engine);
    };
}

}  // namespace

TEST_CASE("The light of a small lamp is found to 0.03 % all over the sheet") {
    for (const Light& light :
         {small_lamp(0.5, 0.4, 1.5), small_lamp(-0.3, 0.1, 3.2), small_lamp(0.9, 0.6, 2.4)}) {
        const FlatField field = fit(sheet(light));
        const double error = worst_gain_error(field, light);
        INFO("degree " << field.degree << ", error " << error);
        CHECK(error < 3e-4);
        CHECK(field.misfit < 3e-4);
        for (const double value : field.light_at(field.middle)) CHECK(value == Approx(1).margin(1e-12));
    }
}

TEST_CASE(
    "Dust, a scratch and the sheet's own texture move the light by less than 0.2 %, and the misfit says so") {
    const Light light = small_lamp(0.2, 0.3, 2);
    auto rough = texture(0.02);
    const Frame frame = sheet(light, [&](int x, int y) {
        if ((x * 31 + y * 17) % 97 == 0) return 0.4;        // one pixel in a hundred
        if (std::abs(x - 2 * y) < 2) return 1.6;            // a scratch from edge to edge
        if (std::hypot(x - 300, y - 100) < 16) return 0.7;  // a stain, under one part in a hundred
        return rough(x, y);
    });
    const FlatField field = fit(frame);
    const double error = worst_gain_error(field, light);
    INFO("error " << error << ", misfit " << field.misfit << ", residual " << field.residual);
    CHECK(error < 2e-3);
    CHECK(error < 5 * field.misfit);
    CHECK(field.misfit < 2e-3);
}

TEST_CASE("Light that falls by 29 % is evened out and light that falls by 33 % is refused") {
    const auto falling = [](double share) {
        return [share](double x, double) { return 1 - share * x / width; };
    };
    CHECK(sheet_refusal(sheet(falling(0.295))).empty());
    CHECK_THAT(sheet_refusal(sheet(falling(0.33))), contains("no more than 30 % can be evened out"));
}

TEST_CASE("What is no even sheet is refused with its cure") {
    const Light even = [](double, double) { return 1.0; };
    const auto says = [](const Frame& frame, const char* cure) {
        CHECK_THAT(sheet_refusal(frame), contains(cure));
    };
    // Wood: 8 % of contrast over tens of pixels.
    says(sheet(even, [](int x, int y) { return 1 + 0.08 * std::sin(x / 9.0 + std::sin(y / 60.0)); }),
         "fill the whole picture with one matt, even, grey sheet");
    // A lamp mirrored in a sheet of gloss.
    says(sheet(even,
               [](int x, int y) {
                   return 1 + 0.5 * std::exp(-std::pow(std::hypot(x - 200, y - 150) / 25, 2));
               }),
         "use a dry, matt sheet");
    says(sheet(even, [](int x, int) { return x < 50 ? 3.0 : 1.0; }), "clipped");
    says(sheet([](double, double) { return 0.01; }), "almost black");
    says(sheet(even, [](int x, int y) { return x > 200 && x < 280 && y > 100 && y < 180 ? 0.5 : 1.0; }),
         "keep shadows, stains and everything else off it");
}

TEST_CASE("The lattice for whole regions is within 0.01 % of the surface, and evens out pixel by pixel") {
    const FlatField field = fit(sheet(small_lamp(-0.2, 0.2, 2.6)));
    const FlatGrid grid(field);
    double worst = 0;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const Point at{x + 0.5, y + 0.5};
            const Vector3 light = field.light_at(at), gain = grid.gain_at(at);
            for (std::size_t c = 0; c < 3; ++c) worst = std::max(worst, std::abs(gain[c] * light[c] - 1));
        }
    CHECK(worst < 1e-4);
    LinearPicture window{
        {37, 51, 211, 83}, std::vector<float>(3 * 211 * 83, 0.5F), std::vector<std::uint8_t>(211 * 83)};
    even_out(window, field);
    double apart = 0;
    for (int row = 0; row < 83; ++row)
        for (int column = 0; column < 211; ++column) {
            const Vector3 gain = grid.gain_at({37 + column + 0.5, 51 + row + 0.5});
            for (std::size_t c = 0; c < 3; ++c)
                apart =
                    std::max(apart, std::abs(static_cast<double>(window.at(column, row)[c]) - 0.5 * gain[c]));
        }
    CHECK(apart < 1e-6);
}

TEST_CASE("A field is good between places that the card has been at and says how little it knows elsewhere") {
    // Every material has a reflectance of its own, which is not told.
    const Light light = [](double x, double y) { return 1.1 - 0.2 * x / width - 0.05 * y / height; };
    const std::array<double, 4> reflectances{0.85, 0.4, 0.15, 0.06};
    FlatSamples samples;
    samples.width = width, samples.height = height;
    const std::array<Point, 2> places{Point{110, 250}, Point{370, 250}};
    for (const Point& place : places) {
        std::vector<PatchReading> patches, paper;
        const auto read = [&](double x, double y, double reflectance) {
            PatchReading reading;
            reading.area =
                rectangle({static_cast<int>(place.x + x) - 5, static_cast<int>(place.y + y) - 5, 10, 10});
            const double seen = reflectance * light(place.x + x, place.y + y);
            reading.mean = {seen, seen, seen};
            reading.pixels = 100;
            return reading;
        };
        for (std::size_t k = 0; k < 4; ++k)
            patches.push_back(read(-45 + 30 * static_cast<double>(k), 0, reflectances[k]));
        for (const double y : {-40.0, -20.0, 20.0, 40.0})
            for (const double x : {-70.0, 70.0}) paper.push_back(read(x, y, 0.9));
        add_card_place(samples, patches, paper);
    }
    const FlatField field = fit_flat_field(samples, straight_curves(), places[0]);
    const double truth = light(370, 250) / light(110, 250);
    const double error = std::abs(field.light_at(places[1])[1] / truth - 1);
    INFO("error " << error << ", u " << field.u_between(places[0], places[1]));
    CHECK(error < 1e-3);
    CHECK(error < 2 * field.u_between(places[0], places[1]));
    CHECK(field.u_between(places[0], places[1]) < 0.006);
    CHECK(field.u_between(places[0], {240, 10}) > 2 * field.u_between(places[0], places[1]));
    samples.samples.resize(12);
    samples.pictures = 1;
    CHECK_THROWS_WITH(fit_flat_field(samples, straight_curves(), places[0]),
                      contains("one place of the card"));
}
