// Where things stand in the window, and the greys they are painted in.
#include <fmt/format.h>

#include <fstream>
#include <iterator>

#include "live/layout.h"
#include "live/theme.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

struct Size {
    float width, height;
};

void check_layout(const LayoutRequest& request) {
    INFO(fmt::format("{} × {}, scale {}, {} tools, {} practice controls", request.width, request.height,
                     request.scale, request.tools, request.practice));
    const auto boxes = named_boxes(lay_out(request));
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        INFO(boxes[i].name);
        const Box& box = boxes[i].box;
        CHECK(box.width > 0);
        CHECK(box.height > 0);
        CHECK(box.x >= 0);
        CHECK(box.y >= 0);
        CHECK(box.right() <= request.width);
        CHECK(box.bottom() <= request.height);
        for (std::size_t j = i + 1; j < boxes.size(); ++j) {
            INFO(boxes[j].name);
            CHECK_FALSE(overlap(box, boxes[j].box));
        }
    }
}

// The sizes whose layout is kept in tests/data/window-layouts.txt: name, width, height, scale; tools and
// practice controls as the window has them on the practice bench.
std::string kept_layouts() {
    struct Shape {
        const char* name;
        float width, height, scale;
    };
    std::string lines = "shape\tbox\tx\ty\twidth\theight\n";
    for (const Shape& shape : {Shape{"1280x720", 1280, 720, 1}, Shape{"1920x1080", 1920, 1080, 1},
                               Shape{"1280x720-at-2", 1280, 720, 2}})
        for (const NamedBox& named : named_boxes(lay_out({shape.width, shape.height, shape.scale, 10, 5})))
            lines += fmt::format("{}\t{}\t{}\t{}\t{}\t{}\n", shape.name, named.name, named.box.x, named.box.y,
                                 named.box.width, named.box.height);
    return lines;
}

const std::string kept_layouts_file = TONEMEND_TEST_DATA "/window-layouts.txt";

}  // namespace

// test_live "[write-layouts]" renews the file after a wanted change of the layout; look at the window's
// pictures first.
TEST_CASE("Renew the kept layouts", "[.write-layouts]") {
    std::ofstream(kept_layouts_file) << kept_layouts();
    SUCCEED();
}

TEST_CASE("Everything stands where it stood when the window was last looked at") {
    std::ifstream file(kept_layouts_file);
    const std::string kept{std::istreambuf_iterator<char>(file), {}};
    CHECK(kept_layouts() == kept);
}

TEST_CASE("Nothing in the window overlaps and everything lies inside, at every size and text scale") {
    for (const Size size : {Size{1280, 720}, Size{1920, 1080}, Size{800, 500}, Size{640, 400},
                            Size{3840, 2160}, Size{1024, 1280}, Size{2560, 600}})
        for (const float scale : {0.75F, 1.0F, 1.5F, 2.0F, 3.0F})
            for (const int practice : {0, 5}) check_layout({size.width, size.height, scale, 10, practice});
}

TEST_CASE("The figure of the verdict is legible at two metres on an ordinary laptop") {
    // ISO 9241-303:2011, 5.5.4: characters of at least 16 minutes of arc, 20 to 22 preferred (from memory).
    // At 2 m, 22 minutes are 12.8 mm; a bold digit of DejaVu Sans is 0.73 of its size; 96 pixels an inch.
    const Layout layout = lay_out({1280, 720, 1, 10, 5});
    const double digit_mm = 0.73 * layout.huge * 25.4 / 96;
    INFO("digit " << digit_mm << " mm");
    CHECK(digit_mm >= 12.8);
}

TEST_CASE("The picture is the largest thing in the window") {
    const Layout layout = lay_out({1280, 720, 1, 10, 5});
    for (const NamedBox& named : named_boxes(layout)) {
        INFO(named.name);
        CHECK(named.box.width * named.box.height <= layout.picture.width * layout.picture.height);
    }
}

TEST_CASE("Controls are large enough for a gloved hand") {
    // WCAG 2.1, success criterion 2.5.5: targets of at least 44 by 44 pixels.
    for (const Size size : {Size{1280, 720}, Size{1920, 1080}}) {
        const Layout layout = lay_out({size.width, size.height, 1, 10, 5});
        for (const NamedBox& named : named_boxes(layout)) {
            if (named.name.find("tool") != 0 && named.name.find("practice") != 0 && named.name != "take" &&
                named.name != "undo")
                continue;
            INFO(named.name);
            CHECK(named.box.width >= 44);
            CHECK(named.box.height >= 44);
        }
    }
}

TEST_CASE("Contrast is what WCAG says it is") {
    // WCAG 2.1, relative luminance: black on white is 21:1; #777777 on white is 4.48:1, #767676 4.54:1 (the
    // well-known pair of greys beside the bound of 4.5).
    CHECK(contrast({0, 0, 0}, {255, 255, 255}) == Approx(21).epsilon(1e-9));
    CHECK(contrast({0x77, 0x77, 0x77}, {255, 255, 255}) == Approx(4.48).margin(0.005));
    CHECK(contrast({0x76, 0x76, 0x76}, {255, 255, 255}) == Approx(4.54).margin(0.005));
}

TEST_CASE("Text stands out of everything it is written on, in both themes") {
    for (const ThemeName name : {ThemeName::light, ThemeName::dark}) {
        const Theme& t = theme(name);
        INFO((name == ThemeName::light ? "light" : "dark"));
        // WCAG 2.1, success criterion 1.4.3: at least 4.5:1.
        for (const Shade& ground : {t.surround, t.plate, t.touch, t.touch_hover})
            CHECK(contrast(t.ink, ground) >= 4.5);
        CHECK(contrast(t.faint, t.plate) >= 4.5);
        CHECK(contrast(t.strong_ink, t.strong) >= 4.5);
        CHECK(contrast(t.plate, t.ink) >= 4.5);  // the plate turned about for a match
        // WCAG 2.1, success criterion 1.4.11: what carries meaning at least 3:1.
        CHECK(contrast(t.bubble, t.tube) >= 3);
    }
}

TEST_CASE("The surround is the neutral grey that colours are judged in") {
    // ISO 3664:2009 asks for a neutral surround of medium lightness; L* 50 is sRGB 118.9, L* 20 is 48.1 (CIE
    // 15 and IEC 61966-2-1, computed by hand).
    CHECK(theme(ThemeName::light).surround.r == 119);
    CHECK(theme(ThemeName::dark).surround.r == 48);
    for (const ThemeName name : {ThemeName::light, ThemeName::dark}) {
        const Theme& t = theme(name);
        for (const Shade& shade : {t.surround, t.plate, t.ink, t.faint, t.tube, t.bubble, t.etch}) {
            CHECK(shade.r == shade.g);
            CHECK(shade.g == shade.b);
        }
        CHECK(t.touch.b > t.touch.r);  // cool, far from any wood
    }
}
