// Where the picture lies on the screen, how it is made smaller, and the pictures that do not go up as codes.
#include <cmath>
#include <cstdio>
#include <functional>
#include <stdexcept>

#include "colour/difference.h"
#include "colour/srgb_curve.h"
#include "live/display_profile.h"
#include "live/gl_framebuffer.h"
#include "live/gl_picture.h"
#include "live/gl_shader_text.h"
#include "live/overlay_colours.h"
#include "picture/linear_picture.h"
#include "picture/standard_encodings.h"
#include "tests/catch.h"
#include "tests/live/shader_context.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

Frame grey_frame(int width, int height, const std::function<int(int, int)>& code_at) {
    Frame frame;
    frame.width = width, frame.height = height;
    frame.encoding = srgb_encoding(Provenance::stated);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            for (int c = 0; c < 3; ++c) frame.samples.push_back(static_cast<std::byte>(code_at(x, y)));
    return frame;
}

// Frames whose linear light is one function of all three channels: here the codes turned round by a place.
class Turned : public Decoding {
  public:
    bool separable() const override { return false; }
    void decode(const float* encoded, float* linear, std::size_t pixels) const override {
        for (std::size_t i = 0; i < 3 * pixels; i += 3) {
            const std::array<float, 3> code{encoded[i], encoded[i + 1], encoded[i + 2]};
            for (std::size_t c = 0; c < 3; ++c)
                linear[i + c] = static_cast<float>(decode_srgb(static_cast<double>(code[(c + 1) % 3])));
        }
    }
};

class Screen {
  public:
    Screen(int width, int height) : width_(width), target_(TexelKind::rgba32f, width, height) {
        renderer_.set_display(make_srgb_display_table());
        renderer_.set_surround({0.25, 0.5, 0.75});
    }
    void draw(const GlPicture& picture, const PictureView& view, const OverlaySettings& overlay = {}) {
        target_.bind();
        renderer_.draw(picture, view, overlay);
        shown_ = target_.read();
    }
    // Code of 255 at a screen pixel counted from the top left.
    double at(int x, int y, std::size_t channel = 0) const {
        return 255 * static_cast<double>(shown_[4 * static_cast<std::size_t>(y * width_ + x) + channel]);
    }

  private:
    int width_;
    GlFramebuffer target_;
    GlPictureRenderer renderer_;
    std::vector<float> shown_;
};

void load(GlPicture& picture, const Frame& frame) {
    picture.calibrate(frame.encoding, nullptr);
    picture.load(frame);
}

}  // namespace

TEST_CASE(
    "A picture lies upright from the view's top left corner, enlarged in squares, with the surround beyond "
    "its edges") {
    const ShaderContext context;
    Screen screen(64, 48);
    GlPicture picture;
    load(picture, grey_frame(20, 10, [](int x, int y) { return 10 * x + y; }));
    screen.draw(picture, {0, 0, 64, 48, 0, 0, 0.5});
    CHECK(screen.at(0, 0) == Approx(0).margin(0.02));
    CHECK(screen.at(39, 0) == Approx(190).margin(0.02));
    CHECK(screen.at(6, 9) == Approx(34).margin(0.02));
    CHECK(screen.at(7, 8) == screen.at(6, 9));
    CHECK(screen.at(40, 5, 0) == Approx(255 * 0.25).margin(1e-3));
    CHECK(screen.at(5, 20, 2) == Approx(255 * 0.75).margin(1e-3));
}

TEST_CASE("Two views side by side show two places of two pictures, each inside its own half") {
    const ShaderContext context;
    Screen screen(64, 48);
    GlPicture before, after;
    load(before, grey_frame(100, 100, [](int x, int) { return x; }));
    load(after, grey_frame(100, 100, [](int x, int) { return 100 + x; }));
    screen.draw(before, {0, 0, 32, 48, 10, 20, 1});
    screen.draw(after, {32, 0, 32, 48, 50, 60, 1});
    CHECK(screen.at(0, 0) == Approx(10).margin(0.02));
    CHECK(screen.at(31, 0) == Approx(41).margin(0.02));
    CHECK(screen.at(32, 0) == Approx(150).margin(0.02));
    CHECK(screen.at(63, 30) == Approx(181).margin(0.02));
}

TEST_CASE("A picture made smaller averages light and not codes") {
    const ShaderContext context;
    Screen screen(16, 16);
    GlPicture picture;
    load(picture, grey_frame(64, 64, [](int x, int y) { return (x + y) % 2 ? 255 : 0; }));
    for (const double texels : {2.0, 4.0}) {
        screen.draw(picture, {0, 0, 16, 16, 0, 0, texels});
        INFO(texels);
        // IEC 61966-2-1: half the light of white is code 187.516; half of the codes would be 127.5.
        CHECK(screen.at(3, 3) == Approx(187.516).margin(0.05));
    }
}

TEST_CASE(
    "A frame whose colours are one function of all channels is shown, differenced and marked for clipping as "
    "its light says") {
    const ShaderContext context;
    Screen screen(32, 32);
    Frame frame = grey_frame(32, 32, [](int x, int y) { return 8 * x + y / 8; });
    for (std::size_t i = 0; i < frame.samples.size(); i += 3) frame.samples[i] = static_cast<std::byte>(77);
    frame.encoding.decoding = std::make_shared<Turned>();
    frame.samples[3 * 40] = static_cast<std::byte>(255);
    GlPicture picture;
    load(picture, frame);
    screen.draw(picture, {0, 0, 32, 32, 0, 0, 1});
    CHECK(screen.at(5, 3, 2) == Approx(77).margin(0.02));  // red became blue
    CHECK(screen.at(5, 3, 1) == Approx(40).margin(0.02));
    OverlaySettings overlay;
    overlay.kind = Overlay::clipping;
    screen.draw(picture, {0, 0, 32, 32, 0, 0, 1}, overlay);
    CHECK(screen.at(8, 1, 0) == Approx(213).margin(0.1));
    CHECK(screen.at(9, 1, 0) == Approx(screen.at(9, 1, 2)).margin(0.1));
}

TEST_CASE("A raw frame's clipped pixels spoil their neighbours on the screen as they do in the reading") {
    const ShaderContext context;
    Screen screen(32, 32);
    Frame frame = grey_frame(32, 32, [](int x, int y) {
        return x == 0 ? 0 : (x * 11 + y * 17) % 97 == 0 ? 255 : 120;
    });
    for (const bool raw : {false, true}) {
        frame.encoding.camera_native = raw;
        GlPicture picture;
        load(picture, frame);
        OverlaySettings overlay;
        overlay.kind = Overlay::clipping;
        screen.draw(picture, {0, 0, 32, 32, 0, 0, 1}, overlay);
        const LinearPicture truth = linear_light(frame, {0, 0, 32, 32});
        for (int i = 0; i < 32 * 32; ++i) {
            const bool marked = std::abs(screen.at(i % 32, i / 32, 0) - screen.at(i % 32, i / 32, 2)) > 1;
            REQUIRE(marked == (truth.clipped[static_cast<std::size_t>(i)] != 0));
        }
    }
}

TEST_CASE(
    "A map of differences that the processor made is drawn in the colours that the shader's own map has") {
    const ShaderContext context;
    const Frame frame = grey_frame(64, 64, [](int x, int y) { return 60 + x + 2 * y; });
    OverlaySettings overlay;
    overlay.kind = Overlay::difference;
    overlay.reference = {50, 3, 8};
    overlay.strength = 0.8;
    Screen by_shader(64, 64), by_processor(64, 64);
    GlPicture picture;
    load(picture, frame);
    by_shader.draw(picture, {0, 0, 64, 64, 0, 0, 1}, overlay);

    const LinearPicture light = linear_light(frame, {0, 0, 64, 64});
    std::vector<float> map;
    for (std::size_t i = 0; i < 64 * 64; ++i) {
        Vector3 rgb{};
        for (std::size_t c = 0; c < 3; ++c) rgb[c] = static_cast<double>(light.rgb[3 * i + c]);
        const Vector3 xyz = frame.encoding.to_xyz_d50 * rgb;
        map.push_back(static_cast<float>(pixel_difference({xyz[0], xyz[1], xyz[2]}, overlay.reference)));
    }
    map[5] = NAN;
    picture.load_difference_map(map.data());
    by_processor.draw(picture, {0, 0, 64, 64, 0, 0, 1}, overlay);
    for (int i = 0; i < 64 * 64; ++i)
        for (std::size_t c = 0; c < 3 && i != 5; ++c)
            REQUIRE(by_processor.at(i % 64, i / 64, c) ==
                    Approx(by_shader.at(i % 64, i / 64, c)).margin(0.02));
    CHECK(by_processor.at(5, 0) == Approx(118.9).margin(0.1));  // L* 50 in sRGB

    picture.load(frame);  // the map belonged to the frame before
    by_processor.draw(picture, {0, 0, 64, 64, 0, 0, 1}, overlay);
    CHECK(by_processor.at(5, 0) == by_shader.at(5, 0));
}

TEST_CASE("Evenness is taken over a square, so that grain does not hide the lamp") {
    const ShaderContext context;
    Screen screen(64, 64);
    GlPicture picture;
    // Rows of dark figure one pixel wide on an even light.
    load(picture, grey_frame(64, 64, [](int, int y) { return y % 2 ? 200 : 100; }));
    OverlaySettings overlay;
    overlay.kind = Overlay::evenness;
    overlay.plane.level = 0.5 * (decode_srgb(200.0 / 255) + decode_srgb(100.0 / 255));
    overlay.evenness_reach = 16;
    screen.draw(picture, {0, 0, 64, 64, 0, 0, 1}, overlay);
    const auto level = make_srgb_display_table().encode(departure_colour(0));
    for (int y = 10; y < 50; ++y) CHECK(screen.at(32, y, 0) == Approx(255 * level[0]).epsilon(0).margin(10));
    overlay.evenness_reach = 1;
    screen.draw(picture, {0, 0, 64, 64, 0, 0, 1}, overlay);
    CHECK(std::abs(screen.at(32, 20, 0) - screen.at(32, 21, 0)) > 80);
}

TEST_CASE(
    "The evened-out light is the mean of the square around each place, to within what its places leave") {
    const ShaderContext context;
    Screen screen(128, 96);
    GlPicture picture;
    // A lamp that falls off from left to right over rows of figure.
    const auto code = [](int x, int y) { return 120 + x / 2 + (y % 3 == 0 ? -20 : 10); };
    load(picture, grey_frame(128, 96, code));
    OverlaySettings overlay;
    overlay.kind = Overlay::evenness;
    overlay.evenness_reach = 24;
    overlay.evenness_span = 1;
    overlay.plane.level = decode_srgb(150.0 / 255);
    screen.draw(picture, {0, 0, 128, 96, 0, 0, 1}, overlay);
    const DisplayTable table = make_srgb_display_table();
    double worst = 0;
    for (int y = 12; y < 84; y += 7) {
        for (int x = 12; x < 116; x += 7) {
            double sum = 0;  // the plain mean, over every pixel of the square
            for (int j = y - 12; j < y + 12; ++j)
                for (int i = x - 12; i < x + 12; ++i) sum += decode_srgb(code(i, j) / 255.0);
            const double departure = sum / (24 * 24) / overlay.plane.level - 1;
            // Which departure has the colour that is shown there?
            double nearest = 1e9, shown = 0;
            for (double t = -1; t <= 1; t += 0.002) {
                const double off = std::abs(255 * table.encode(departure_colour(t))[2] - screen.at(x, y, 2)) +
                                   std::abs(255 * table.encode(departure_colour(t))[0] - screen.at(x, y, 0));
                if (off < nearest) nearest = off, shown = t;
            }
            worst = std::max(worst, std::abs(shown - departure));
        }
    }
    std::printf("  evened-out light: off by %.4f of the level at the worst\n", worst);
    CHECK(worst < 0.04);
}

TEST_CASE("A shader that does not compile says so with the driver's words") {
    const ShaderContext context;
    try {
        GlProgram(join_shaders({"full_screen.vert"}),
                  join_shaders({"numbers.glsl"}) + "void main() { no_such_thing(); }");
        FAIL("it compiled");
    } catch (const std::runtime_error& error) {
        CHECK_THAT(error.what(), contains("no_such_thing"));
    }
}
