#include <cmath>

#include "picture/input_error.h"
#include "practice/light_map.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

PracticeOptions small(PracticeSubject subject) {
    PracticeOptions options;
    options.seed = 5, options.width = 480, options.height = 360;
    options.fall_off_percent = 12, options.fall_off_direction = 0, options.black_level = 0;
    options.subject = subject;
    return options;
}

double mean_green(const RawPicture& picture, const PixelRect& rect) {
    double sum = 0;
    for (int y = rect.y; y < rect.y + rect.height; ++y)
        for (int x = rect.x; x < rect.x + rect.width; ++x)
            sum += static_cast<double>(picture.row(y)[3 * x + 1]);
    return sum / (rect.width * rect.height);
}

}  // namespace

// A reflectance of 45 % under a light that falls by 12 %: the raw value is exposure × white × reflectance ×
// light.
TEST_CASE("The grey sheet fills the picture with 45 % of white under the scene's own fall of light") {
    const PracticeScene scene = make_scene(small(PracticeSubject::grey_sheet));
    const RawPicture picture = light_map(scene);
    for (const PixelRect rect :
         {PixelRect{0, 0, 60, 60}, PixelRect{210, 150, 60, 60}, PixelRect{420, 300, 60, 60}}) {
        const double light = scene.light.at(rect.x + 30, rect.y + 30);
        const double expected = scene.exposure * scene.view.white[1] * 0.45 * light;
        CHECK(mean_green(picture, rect) == Approx(expected).epsilon(0.004));  // dust is in it
    }
}

TEST_CASE("The sheet has the lamp, camera and exposure of the scene with the same seed") {
    const PracticeScene work = make_scene(small(PracticeSubject::work)),
                        sheet = make_scene(small(PracticeSubject::grey_sheet));
    CHECK(work.camera.number == sheet.camera.number);
    CHECK(work.exposure == sheet.exposure);
    CHECK(work.light.cosine == sheet.light.cosine);
    CHECK(work.s_curve == sheet.s_curve);
}

TEST_CASE("The card lies where it is told to, whole or not at all") {
    PracticeOptions options = small(PracticeSubject::work);
    options.card_x = 0.4, options.card_y = 0.7;
    const PracticeScene scene = make_scene(options);
    Point middle;
    for (const Point& corner : scene.card->sheet) middle.x += corner.x / 4, middle.y += corner.y / 4;
    CHECK(middle.x == Approx(0.4 * 480));
    CHECK(middle.y == Approx(0.7 * 360));
    options.card_x = 0.02;
    CHECK_THROWS_WITH(make_scene(options), contains("would hang out of the picture"));
    options.card_x.reset();
    CHECK_THROWS_WITH(make_scene(options), contains("given by half"));
}
