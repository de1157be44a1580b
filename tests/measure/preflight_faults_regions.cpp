#include <algorithm>

#include "measure/comparison.h"
#include "tests/measure/preflight_faults.h"

namespace tonemend::testing {
namespace {

Region moved(const PixelRect& rect, double dx, double dy) {
    return rectangle({rect.x + static_cast<int>(dx), rect.y + static_cast<int>(dy), rect.width, rect.height});
}

std::vector<Warning> show_overlap(int i) {
    Shot shot = take_shot(faulty_options(i), faulty_file(i));
    const PixelRect& original = shot.scene.original.region;
    shot.repair = moved(original, (1 - severity(i, 0.05, 1)) * original.width, 0);
    return warnings_of(shot);
}

std::vector<Warning> show_region_on_card(int i) {
    Shot shot = take_shot(faulty_options(i), faulty_file(i));
    const Quad& card = shot.scene.card->corners;
    const int size = 120;
    const double share = severity(i, 0.1, 1);  // of the way from outside into the card
    const double x = (card[0].x + card[2].x) / 2 - size / 2.0;
    const double middle = (card[0].y + card[2].y) / 2,
                 lowest = std::max({card[0].y, card[1].y, card[2].y, card[3].y});
    const double y = lowest + (middle - size / 2.0 - lowest) * share;
    shot.repair = rectangle({static_cast<int>(x), static_cast<int>(y), size, size});
    return warnings_of(shot);
}

std::vector<Warning> show_joint_in_region(int i) {
    PracticeOptions options = faulty_options(i);
    options.pair = PairKind::same_colourant;
    options.difference = severity(i, 5, 8);
    Shot shot = take_shot(options, faulty_file(i));
    const PixelRect& region = shot.scene.repair.region;
    const int joint = shot.scene.repair.board.x;
    shot.repair = moved(region, joint - region.x - region.width / 2.0, 0);
    return warnings_of(shot);
}

std::vector<Warning> show_dark_wood(int i) {
    PracticeOptions options = faulty_options(i);
    Shot shot = take_shot(options, faulty_file(i));
    // Of the card's steps only those lighter than the wood.
    Card& card = shot.scene.card->card;
    std::erase_if(card.patches, [](const Patch& patch) { return patch.lab.L < 70; });
    for (const Region* region : {&shot.original, &shot.repair})
        darken(shot.frame, *region, severity(i, 0.5, 0.1));
    return warnings_of(shot);
}

std::vector<Warning> show_small_region(int i) {
    PracticeOptions options = faulty_options(i);
    options.wood = "oak";
    options.grain_strength = 2;
    options.region_size = static_cast<int>(severity(i, 14, 9));
    constexpr double tolerance = 0.5;
    const Shot shot = take_shot(options, faulty_file(i));
    return compare_regions(shot.frame, calibrate_shot(shot), shot.original, shot.repair, tolerance).warnings;
}

}  // namespace

std::vector<Fault> faults_of_regions() {
    std::vector<Fault> faults;
    faults.push_back(
        {"region-clipped", "a spot of the repair that mirrors 85 to 100 % of the lamp", [](int i) {
             PracticeOptions options = faulty_options(i);
             options.white_balance = WhiteBalance::automatic;
             options.exposure = 1.05;
             options.faults.glint_percent = severity(i, 85, 100);
             return warnings_of(take_shot(options, faulty_file(i)));
         }});
    faults.push_back({"regions-overlap", "by 5 to 100 %", show_overlap});
    faults.push_back({"region-on-card", "10 to 100 % of the way into it", show_region_on_card});
    faults.push_back(
        {"not-one-colour", "half of the region on a board that is ΔE2000 5 to 8 away", show_joint_in_region});
    faults.push_back(
        {"beyond-steps", "a card of two light steps, wood 2 to 10 times darker", show_dark_wood});
    faults.push_back({"region-small", "14 down to 9 pixels on oak of twice the contrast, tolerance 0.5",
                      show_small_region});
    return faults;
}

}  // namespace tonemend::testing
