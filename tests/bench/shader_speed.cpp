// Prints the worst pixel of the picture shader against its double-precision twin, and the time of a frame
// with each overlay and with all of them, drawn off screen by whatever driver EGL offers; a graphics card is
// taken before software. Not judged by the clock.
//   bench_shaders [software]
#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <string_view>
#include <utility>
#include <vector>

#include "colour/difference.h"
#include "live/display_profile.h"
#include "live/gl_framebuffer.h"
#include "live/gl_picture.h"
#include "live/gl_shader_text.h"
#include "picture/standard_encodings.h"
#include "tests/live/shader_context.h"

using namespace tonemend;
using tonemend::testing::ShaderContext;

namespace {

using Clock = std::chrono::steady_clock;

constexpr std::array<std::pair<Overlay, const char*>, 7> overlays{{{Overlay::none, "none"},
                                                                   {Overlay::difference, "difference"},
                                                                   {Overlay::clipping, "clipping"},
                                                                   {Overlay::glare, "glare"},
                                                                   {Overlay::evenness, "evenness"},
                                                                   {Overlay::figure, "figure"},
                                                                   {Overlay::blend, "blend"}}};

// All reds beside all greens, over and over.
Frame make_frame(int width, int height) {
    Frame frame;
    frame.width = width, frame.height = height;
    frame.encoding = srgb_encoding(Provenance::stated);
    frame.samples.resize(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    std::size_t i = 0;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            for (const int code : {x % 256, y % 256, (x * 7 + y * 13) % 256})
                frame.samples[i++] = static_cast<std::byte>(code);
    return frame;
}

OverlaySettings settings_for(Overlay kind, int width) {
    OverlaySettings settings;
    settings.kind = kind;
    settings.reference = {48, 14, 27};
    settings.glare.weights = {-0.9F, 0.5F, 1.7F};
    settings.glare.centre = 0.01F, settings.glare.limit = 0.37F, settings.glare.brightness = 0.6F;
    settings.plane = {0.4, 120, 90, 0.0002, -0.0001};
    settings.figure = {{0.31, 0.52, 0.17}, 0.2113001};
    settings.evenness_reach = width / 16.0;
    return settings;
}

void print_worst_pixel() {
    constexpr int side = 256;
    const Frame frame = make_frame(side, side);
    const DisplayTable display = make_srgb_display_table();
    const CodeCurves curves = make_code_curves(frame.encoding, nullptr);
    GlPicture picture;
    picture.calibrate(frame.encoding, nullptr);
    picture.load(frame);
    GlPictureRenderer renderer;
    renderer.set_display(display);
    const GlFramebuffer target(TexelKind::rgba32f, side, side);
    for (const auto& [kind, name] : overlays) {
        OverlaySettings settings = settings_for(kind, side);
        settings.evenness_reach = 1;
        target.bind();
        renderer.draw(picture, {0, 0, side, side, 0, 0, 1}, settings);
        const std::vector<float> shown = target.read();
        double worst = 0;
        int at = 0;
        for (int i = 0; i < side * side; ++i) {
            Vector3 code{};
            for (std::size_t c = 0; c < 3; ++c)
                code[c] = std::to_integer<int>(frame.samples[3 * static_cast<std::size_t>(i) + c]) / 255.0;
            OverlayPixel pixel;
            pixel.clipping = clipping_of(code);
            pixel.light = curves.light_of(code);
            pixel.xyz = curves.xyz_of(pixel.light);
            pixel.Y_around = pixel.xyz.Y;
            pixel.x = i % side + 0.5, pixel.y = i / side + 0.5;
            const auto truth = display.encode(paint_overlay(settings, pixel));
            for (std::size_t c = 0; c < 3; ++c) {
                const double error =
                    255 *
                    std::abs(static_cast<double>(shown[4 * static_cast<std::size_t>(i) + c]) - truth[c]);
                if (!(error <= worst)) worst = error, at = i;
            }
        }
        std::printf("  %-10s worst pixel %3d, %3d: %.5f of 255\n", name, at % side, at / side, worst);
    }
}

// ΔE2000 itself, read back as a number.
void print_worst_difference() {
    constexpr int side = 256;
    const Frame frame = make_frame(side, side);
    const CodeCurves curves = make_code_curves(frame.encoding, nullptr);
    GlTexture picture, texture;
    picture.upload(frame);
    upload_table(texture, curves.light);
    const GlProgram program(join_shaders({"full_screen.vert"}),
                            join_shaders({"numbers.glsl", "calibration.glsl", "lab.glsl", "ciede2000.glsl"}) +
                                "uniform sampler2D picture; uniform vec3 reference_lab; out vec4 result;\n"
                                "void main() { ivec2 at = ivec2(gl_FragCoord.x, 255 - int(gl_FragCoord.y));\n"
                                "result = vec4(ciede2000(reference_lab, "
                                "to_lab(xyz_of(light_of(texelFetch(picture, at, 0).rgb))))); }\n");
    const FullScreenTriangle triangle;
    const GlFramebuffer target(TexelKind::rgba32f, side, side);
    double worst = 0;
    int at = 0;
    Lab against;
    for (const Lab& reference : {Lab{48, 14, 27}, Lab{30, 9, 12}, Lab{71, 6, 31}, Lab{50, 0, 0}}) {
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
            Vector3 code{};
            for (std::size_t c = 0; c < 3; ++c)
                code[c] = std::to_integer<int>(frame.samples[3 * static_cast<std::size_t>(i) + c]) / 255.0;
            const double truth = pixel_difference(curves.xyz_of(curves.light_of(code)), reference);
            const double error =
                std::abs(static_cast<double>(drawn[4 * static_cast<std::size_t>(i)]) - truth);
            if (!(error <= worst)) worst = error, at = i, against = reference;
        }
    }
    std::printf("  ΔE2000     worst pixel %3d, %3d against %g %g %g: off by %.6f\n", at % side, at / side,
                against.L, against.a, against.b, worst);
}

double median_milliseconds(const std::vector<Overlay>& kinds, const GlPictureRenderer& renderer,
                           const GlPicture& picture, const GlFramebuffer& target, int width, int height) {
    std::vector<double> times;
    const auto start = Clock::now();
    while (times.size() < 5 || (times.size() < 200 && Clock::now() - start < std::chrono::seconds(2))) {
        const auto before = Clock::now();
        target.bind();
        for (const Overlay kind : kinds) {
            OverlaySettings settings = settings_for(kind, width);
            settings.evenness_reach +=
                1e-3 * static_cast<double>(times.size());  // evened out anew, as for a new frame
            renderer.draw(picture, {0, 0, width, height, 0, 0, 1}, settings);
        }
        glFinish();
        times.push_back(std::chrono::duration<double, std::milli>(Clock::now() - before).count());
    }
    std::ranges::nth_element(times, times.begin() + static_cast<std::ptrdiff_t>(times.size() / 2));
    return times[times.size() / 2];
}

void print_times(int width, int height) {
    const Frame frame = make_frame(width, height);
    GlPicture picture;
    picture.calibrate(frame.encoding, nullptr);
    picture.load(frame);
    GlPictureRenderer renderer;
    renderer.set_display(make_srgb_display_table());
    const GlFramebuffer target(TexelKind::rgba8, width, height);
    std::printf("%d × %d, milliseconds a frame:\n", width, height);
    std::vector<Overlay> all;
    for (const auto& [kind, name] : overlays) {
        std::printf("  %-10s %9.3f\n", name,
                    median_milliseconds({kind}, renderer, picture, target, width, height));
        all.push_back(kind);
    }
    std::printf("  %-10s %9.3f (six pictures, one over the other)\n", "all",
                median_milliseconds(all, renderer, picture, target, width, height));
    const auto before = Clock::now();
    for (int i = 0; i < 5; ++i) {
        picture.load(frame);
        glFinish();
    }
    std::printf("  %-10s %9.3f (a new frame, from memory to the card)\n", "upload",
                std::chrono::duration<double, std::milli>(Clock::now() - before).count() / 5);
}

}  // namespace

int main(int count, char** arguments) {
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    const bool software = count > 1 && std::string_view(arguments[1]) == "software";
    const ShaderContext context(software ? ShaderContext::Prefer::software
                                         : ShaderContext::Prefer::graphics_card);
    std::printf("GL_RENDERER: %s\n", context.renderer().c_str());
    print_worst_pixel();
    print_worst_difference();
    print_times(1920, 1080);
    print_times(3840, 2160);
}
