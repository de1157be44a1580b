// The whole picture shader against its double-precision twins, pixel by pixel, after every control has been
// moved: what the screen shows is the reading's own arithmetic.
#include <cmath>
#include <cstring>
#include <functional>
#include <limits>
#include <memory>
#include <optional>

#include "calibrate/calibrated_light.h"
#include "calibrate/flat/flat_grid.h"
#include "colour/difference.h"
#include "colour/rgb_space.h"
#include "live/display_profile.h"
#include "live/gl_framebuffer.h"
#include "live/gl_picture.h"
#include "live/gl_shader_text.h"
#include "live/overlay_colours.h"
#include "picture/linear_picture.h"
#include "picture/standard_encodings.h"
#include "tests/catch.h"
#include "tests/live/display_samples.h"
#include "tests/live/shader_context.h"
#include "tests/support/check_tight.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr int side = 256;

// Every 8-bit red beside every green, blues all over: or the same as 16 bits or floats.
Frame ramp_frame(SampleType type) {
    Frame frame;
    frame.width = frame.height = side;
    frame.type = type;
    frame.encoding = srgb_encoding(Provenance::stated);
    frame.samples.resize(std::size_t{side} * side * 3 * frame.bytes_per_sample());
    std::byte* out = frame.samples.data();
    const auto put = [&](const auto& value) { std::memcpy(out, &value, sizeof value), out += sizeof value; };
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x)
            for (const int code : {x, y, (x * 7 + y * 13) % 256}) {
                if (type == SampleType::uint8) put(static_cast<std::uint8_t>(code));
                if (type == SampleType::uint16)
                    put(static_cast<std::uint16_t>(std::min(code * 256 + (x + y) % 256, 65535)));
                if (type == SampleType::float32) put(static_cast<float>(code) / 200.0F - 0.1F);
            }
    return frame;
}

std::shared_ptr<const Calibration> a_calibration() {
    auto calibration = std::make_shared<Calibration>();
    for (std::size_t c = 0; c < 3; ++c) {
        std::vector<CurvePoint> points;
        for (const double truth : {0.9, 0.6, 0.36, 0.19, 0.09, 0.03})
            points.push_back({0.01 + 0.8 * std::pow(truth, 1.05 + 0.02 * static_cast<double>(c)), truth, 0});
        calibration->curves[c] = ToneCurve(points);
    }
    calibration->characterisation.model = ColourModel::of_matrix(rgb_to_xyz_d50(display_p3));
    // Some of each root, taken from the straight terms so that white stays white.
    for (std::size_t row = 0; row < 3; ++row) {
        calibration->characterisation.model.from_working.roots.m[row] = {0.05, -0.02, 0.03};
        for (std::size_t column = 0; column < 3; ++column)
            calibration->characterisation.model.from_working.linear.m[row][column] -= 0.02;
    }
    return calibration;
}

Vector3 code_at(const Frame& frame, int x, int y) {
    Vector3 code{};
    const std::byte* at = frame.row(y) + static_cast<std::size_t>(3 * x) * frame.bytes_per_sample();
    for (double& channel : code) {
        if (frame.type == SampleType::uint8) {
            channel = static_cast<double>(std::to_integer<int>(*at)) / 255;
        } else if (frame.type == SampleType::uint16) {
            std::uint16_t value = 0;
            std::memcpy(&value, at, sizeof value);
            channel = value / 65535.0;
        } else {
            float value = 0;
            std::memcpy(&value, at, sizeof value);
            channel = static_cast<double>(value);
        }
        at += frame.bytes_per_sample();
    }
    return code;
}

// A frame, its calibration and the display, drawn by the shader and by the twins.
struct ShaderBench {
    Frame frame;
    std::shared_ptr<const Calibration> calibration;
    DisplayTable display = make_srgb_display_table();

    // What the twins show for one picture pixel under one screen pixel.
    std::array<double, 3> twin(const CodeCurves& curves, const std::optional<FlatGrid>& grid,
                               const OverlaySettings& overlay, int x, int y) const {
        const Vector3 code = code_at(frame, x, y);
        if (!has_value(code)) return display.encode(no_value_colour());
        OverlayPixel pixel;
        pixel.clipping = clipping_of(code);
        pixel.light = curves.light_of(code);
        if (grid) {
            const Vector3 gain = grid->gain_at({x + 0.5, y + 0.5});
            for (std::size_t c = 0; c < 3; ++c) pixel.light[c] *= gain[c];
        }
        pixel.xyz = curves.xyz_of(pixel.light);
        pixel.Y_around = pixel.xyz.Y;
        pixel.x = x + 0.5, pixel.y = y + 0.5;
        return display.encode(paint_overlay(overlay, pixel));
    }

    // The worst code of 255 off, over all pixels.
    double worst(const OverlaySettings& overlay) const {
        GlPicture picture;
        picture.calibrate(frame.encoding, calibration);
        picture.load(frame);
        GlPictureRenderer renderer;
        renderer.set_display(display);
        const GlFramebuffer target(TexelKind::rgba32f, side, side);
        target.bind();
        renderer.draw(picture, {0, 0, side, side, 0, 0, 1}, overlay);
        const std::vector<float> shown = target.read();
        const CodeCurves curves = make_code_curves(frame.encoding, calibration.get());
        std::optional<FlatGrid> grid;
        if (calibration && calibration->flat_field) grid.emplace(*calibration->flat_field);
        double worst = 0;
        int at = 0;
        for (int i = 0; i < side * side; ++i) {
            const auto truth = twin(curves, grid, overlay, i % side, i / side);
            for (std::size_t c = 0; c < 3; ++c) {
                const double drawn = static_cast<double>(shown[4 * static_cast<std::size_t>(i) + c]);
                const double error = 255 * std::abs(drawn - truth[c]);
                if (!(error <= worst)) worst = error, at = i;
            }
        }
        std::printf("    worst pixel %d, %d: %.5f of 255\n", at % side, at / side, worst);
        return worst;
    }
};

GlareGauge a_glare_gauge() {
    GlareGauge gauge;
    gauge.weights = {-0.9F, 0.5F, 1.7F};
    gauge.centre = 0.01F, gauge.limit = 0.37F, gauge.brightness = 0.6F;
    return gauge;
}

}  // namespace

TEST_CASE("Every overlay is drawn as its twin computes it, for 8-bit, 16-bit and float frames") {
    const ShaderContext context;
    std::printf("  drawn by %s\n", context.renderer().c_str());
    OverlaySettings settings;
    settings.reference = {48, 14, 27};
    settings.glare = a_glare_gauge();
    settings.plane = {0.4, 120, 90, 0.002, -0.001};
    // No pixel lies on the boundary itself, where single precision may settle it either way.
    settings.figure = {{0.31, 0.52, 0.17}, 0.2113001};
    double worst = 0;
    for (const SampleType type : {SampleType::uint8, SampleType::uint16, SampleType::float32}) {
        const ShaderBench bench{ramp_frame(type), a_calibration()};
        for (const Overlay kind : {Overlay::none, Overlay::difference, Overlay::clipping, Overlay::glare,
                                   Overlay::evenness, Overlay::figure, Overlay::blend}) {
            settings.kind = kind;
            INFO("overlay " << static_cast<int>(kind) << ", samples " << static_cast<int>(type));
            const double error = bench.worst(settings);
            CHECK(error < 0.01);
            worst = std::fmax(worst, error);
        }
    }
    check_tight("overlays, codes of 255", worst, 0.005);
}

TEST_CASE("Light that is evened out is evened out on the screen as in the reading") {
    const ShaderContext context;
    auto calibration = std::make_shared<Calibration>(*a_calibration());
    FlatField& field = calibration->flat_field.emplace();
    field.width = field.height = side;
    field.degree = 2;
    field.terms = {
        {{-0.08, 0.05, 0.02, -0.01, 0.015}, {-0.07, 0.05, 0.01, 0.01, 0.02}, {0.06, -0.1, 0, 0, 0}}};
    field.middle = {100, 60};
    OverlaySettings settings;
    settings.reference = {48, 14, 27};
    settings.plane = {0.4, 120, 90, 0.002, -0.001};
    double worst = 0;
    for (const SampleType type : {SampleType::uint8, SampleType::uint16}) {
        const ShaderBench bench{ramp_frame(type), calibration};
        for (const Overlay kind : {Overlay::none, Overlay::difference, Overlay::evenness}) {
            settings.kind = kind;
            worst = std::fmax(worst, bench.worst(settings));
        }
    }
    check_tight("evened out, codes of 255", worst, 0.005);
    // The twin is what a reading is made from.
    const Frame frame = ramp_frame(SampleType::uint16);
    const LinearPicture light = calibrated_light(frame, *calibration, {0, 0, side, side});
    const CodeCurves curves = make_code_curves(frame.encoding, calibration.get());
    const FlatGrid grid(field);
    double apart = 0;
    for (int y = 0; y < side; y += 5)
        for (int x = 0; x < side; x += 5) {
            const Vector3 here = curves.light_of(code_at(frame, x, y)),
                          gain = grid.gain_at({x + 0.5, y + 0.5});
            for (std::size_t c = 0; c < 3; ++c)
                apart = std::max(apart, std::abs(here[c] * gain[c] - static_cast<double>(light.at(x, y)[c])));
        }
    CHECK(apart < 3e-6);
}

TEST_CASE("Every control of the overlays does in the shader what it does in its twin") {
    const ShaderContext context;
    ShaderBench bench{ramp_frame(SampleType::uint8), nullptr};
    const auto moved = [&](Overlay kind, const char* control,
                           const std::function<void(OverlaySettings&)>& move) {
        OverlaySettings settings;
        settings.kind = kind;
        settings.glare = a_glare_gauge();
        settings.plane = {0.4, 120, 90, 0.002, -0.001};
        settings.figure = {{0.31, 0.52, 0.17}, 0.2113001};
        move(settings);
        std::printf("  %s\n", control);
        INFO(control);
        CHECK(bench.worst(settings) < 0.01);
    };
    moved(Overlay::difference, "strength", [](OverlaySettings& s) { s.strength = 0.35; });
    moved(Overlay::difference, "reference", [](OverlaySettings& s) { s.reference = {22, -3, 8}; });
    moved(Overlay::difference, "neutral reference", [](OverlaySettings& s) { s.reference = {61, 0, 0}; });
    moved(Overlay::difference, "span", [](OverlaySettings& s) { s.difference_span = 2; });
    moved(Overlay::clipping, "strength of clipping", [](OverlaySettings& s) { s.strength = 0; });
    moved(Overlay::glare, "weights", [](OverlaySettings& s) {
        s.glare.weights = {1.0F / 3, 1.0F / 3, 1.0F / 3};
    });
    moved(Overlay::glare, "centre", [](OverlaySettings& s) { s.glare.centre = -0.2F; });
    moved(Overlay::glare, "limit", [](OverlaySettings& s) { s.glare.limit = 0.9F; });
    moved(Overlay::evenness, "span of evenness", [](OverlaySettings& s) { s.evenness_span = 0.5; });
    moved(Overlay::evenness, "level", [](OverlaySettings& s) { s.plane.level = 0.7; });
    moved(Overlay::evenness, "middle of the plane",
          [](OverlaySettings& s) { s.plane.x = 20, s.plane.y = 200; });
    moved(Overlay::evenness, "slope",
          [](OverlaySettings& s) { s.plane.slope_x = -0.003, s.plane.slope_y = 0.004; });
    moved(Overlay::blend, "level of the blend", [](OverlaySettings& s) { s.blend_level = 31; });
    moved(Overlay::blend, "span of the blend", [](OverlaySettings& s) { s.blend_span = 25; });
    moved(Overlay::figure, "boundary", [](OverlaySettings& s) { s.figure.boundary = 0.6137003; });
    moved(Overlay::figure, "axis", [](OverlaySettings& s) { s.figure.axis = {0.6, 0.3, 0.1}; });
    bench.display = make_display_table(bytes_of("/usr/share/color/icc/colord/WideGamutRGB.icc"), "wide");
    moved(Overlay::none, "display", [](OverlaySettings&) {});
    bench.display = make_display_table(make_table_profile(), "tables");
    moved(Overlay::none, "display of tables", [](OverlaySettings&) {});
}

TEST_CASE(
    "The difference that the overlay colours is within 0.01 of the ΔE2000 that a reading would give the "
    "pixel") {
    // Not the colour but the number: codes go in, and the way from codes to light is linear_light's own.
    const ShaderContext context;
    const Frame frame = ramp_frame(SampleType::uint8);
    const auto calibration = a_calibration();
    const ChannelCurves channel_curves = calibration->channel_curves();
    const LinearPicture light = linear_light(frame, {0, 0, side, side}, &channel_curves);
    const CodeCurves curves = make_code_curves(frame.encoding, calibration.get());
    double worst = 0;
    int at = 0;
    for (const Lab& reference : {Lab{48, 14, 27}, Lab{30, 9, 12}, Lab{71, 6, 31}, Lab{50, 0, 0}}) {
        GlTexture picture, texture;
        picture.upload(frame);
        upload_table(texture, curves.light);
        const GlProgram program(
            join_shaders({"full_screen.vert"}),
            join_shaders({"numbers.glsl", "calibration.glsl", "lab.glsl", "ciede2000.glsl"}) +
                "uniform sampler2D picture; uniform vec3 reference_lab; out vec4 result;\n"
                "void main() { ivec2 at = ivec2(gl_FragCoord.x, 255 - int(gl_FragCoord.y));\n"
                "result = vec4(ciede2000(reference_lab, to_lab(xyz_of(light_of(texelFetch(picture, at, "
                "0).rgb))))); }\n");
        const FullScreenTriangle triangle;
        const GlFramebuffer target(TexelKind::rgba32f, side, side);
        program.use();
        program.set("picture", 0);
        program.set("code_curves", 1);
        set_colour_model(program, curves.model);
        program.set("reference_lab", Vector3{reference.L, reference.a, reference.b});
        picture.bind(0);
        texture.bind(1);
        target.bind();
        triangle.draw();
        const std::vector<float> drawn = target.read();
        for (int i = 0; i < side * side; ++i) {
            const float* rgb = light.at(i % side, i / side);
            const XYZ xyz = calibration->to_xyz(
                {static_cast<double>(rgb[0]), static_cast<double>(rgb[1]), static_cast<double>(rgb[2])});
            const double error = std::abs(static_cast<double>(drawn[4 * static_cast<std::size_t>(i)]) -
                                          pixel_difference(xyz, reference));
            if (!(error <= worst)) worst = error, at = i;
        }
    }
    std::printf("  worst pixel %d, %d\n", at % side, at / side);
    CHECK(worst <= 0.01);  // what the window promises
    check_tight("ΔE2000 of a picture pixel", worst, 1e-3);
}

TEST_CASE(
    "A pixel that is not a number or infinite is shown in the neutral of no value by every overlay, and only "
    "it") {
    const ShaderContext context;
    ShaderBench bench{ramp_frame(SampleType::float32), a_calibration()};
    const std::array<float, 4> strange{
        std::numeric_limits<float>::quiet_NaN(), -std::numeric_limits<float>::quiet_NaN(),
        std::numeric_limits<float>::infinity(), -std::numeric_limits<float>::infinity()};
    for (std::size_t i = 0; i < 300; ++i) {
        const std::size_t sample = i * 617 % (std::size_t{side} * side * 3);
        std::memcpy(bench.frame.samples.data() + 4 * sample, &strange[i % 4], 4);
    }
    OverlaySettings settings;
    settings.strength = 0.5;
    for (const Overlay kind : {Overlay::none, Overlay::difference, Overlay::clipping, Overlay::glare,
                               Overlay::evenness, Overlay::figure, Overlay::blend}) {
        settings.kind = kind;
        settings.glare = a_glare_gauge();
        CHECK(bench.worst(settings) < 0.01);
    }
}
