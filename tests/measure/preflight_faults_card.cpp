#include <algorithm>

#include "calibrate/card/homography.h"
#include "tests/measure/preflight_faults.h"

namespace tonemend::testing {
namespace {

// Picture pixels of a medium sheet's millimetre when the sheet lies straight.
constexpr double pixels_a_millimetre = 0.98 * 0.44 * 600 / 155;
constexpr double patch_millimetres = 0.233 * 100;

// The last step but one, darker from one side to the other: the steps stay in order.
std::vector<Warning> show_dirty_patch(int i) {
    Shot shot = take_shot(faulty_options(i), faulty_file(i));
    const PlacedCard& card = *shot.scene.card;
    const Patch& patch = card.card.patches[4];
    const Matrix3 to_picture = unit_square_to_quad(card.corners);
    constexpr int strips = 12;
    const double width = (patch.x1 - patch.x0) / strips;
    for (int k = 0; k < strips; ++k) {
        const double x = patch.x0 + k * width;
        Region strip;
        for (const Point corner :
             {Point{x, patch.y0}, Point{x + width, patch.y0}, Point{x + width, patch.y1}, Point{x, patch.y1}})
            strip.corners.push_back(map_point(to_picture, corner));
        darken(shot.frame, strip, 1 - severity(i, 0.8, 0.95) * k / (strips - 1));
    }
    return warnings_of(shot);
}

}  // namespace

std::vector<Fault> faults_of_card() {
    std::vector<Fault> faults;
    faults.push_back(fault("card-clipped", "lightest patch at 1.05 to 1.7 of white",
                           [](PracticeOptions& o, int i) { o.exposure = severity(i, 1.17, 1.9); }));
    faults.push_back(
        {"card-uneven", "a patch that darkens by 80 to 95 % from side to side", show_dirty_patch});
    faults.push_back(
        fault("card-small", "patches of 20 down to 9 pixels a side", [](PracticeOptions& o, int i) {
            o.rotation = severity(i * 7 % fault_pictures, -12, 12);
            o.faults.card_size = severity(i, 20, 9) / (patch_millimetres * pixels_a_millimetre) * 1.12;
        }));
    faults.push_back(
        fault("card-blurred", "blur of 0.08 to 0.13 of a patch's side", [](PracticeOptions& o, int i) {
            o.rotation = severity(i * 7 % fault_pictures, -12, 12);
            o.blur = severity(i, 0.08, 0.13) * patch_millimetres * pixels_a_millimetre;
        }));
    faults.push_back(fault("card-tilted", "by 22 to 38 degrees",
                           [](PracticeOptions& o, int i) { o.tilt = severity(i, 22, 38); }));
    faults.push_back(
        fault("card-shadow", "8 to 45 % darker over 0.15 to 0.7 of the sheet", [](PracticeOptions& o, int i) {
            o.faults.shadow_percent = severity(i, 8, 45);
            o.faults.shadow_share = severity(i * 7 % fault_pictures, 0.15, 0.7);
            o.faults.shadow_angle = severity(i * 13 % fault_pictures, -180, 180);
        }));
    faults.push_back(
        fault("tone-curve-unknown", "cards of one and three steps",
              [](PracticeOptions& o, int i) { o.card = i % 2 == 0 ? "grey-card" : "three-step-card"; }));
    return faults;
}

}  // namespace tonemend::testing
