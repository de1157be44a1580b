#pragma once

#include <span>

#include "measure/comparison.h"
#include "practice/render.h"
#include "practice/scene.h"
#include "record/reading_store.h"

namespace tonemend::testing {

/// The practice bench, small: one frame with the card found in it.
struct PracticeReading {
    explicit PracticeReading(int bits = 8, int width = 960, int height = 720) {
        PracticeOptions options;
        options.width = width, options.height = height, options.bits = bits;
        options.difference = 3;
        scene = make_scene(options);
        original = rectangle(scene.original.region), repair = rectangle(scene.repair.region);
        frame = render(scene);
    }

    Comparison compare(const Frame& picture, const FoundCard& card) const {
        return compare_regions(picture, calibrate(picture, card), original, repair);
    }
    static Calibration calibrate(const Frame& picture, const FoundCard& card) {
        return calibrate_on_card(picture, read_card(locate_card("six-step-card")), card);
    }
    /// The reading of `picture`, with it.
    ReadingToKeep to_keep(const Frame& picture) const {
        const FoundCard card = find_card(picture).value();
        const auto bytes = std::as_bytes(std::span("annotated"));
        return {
            "bench",
            "2026-11-25T12:00:00Z",
            {bytes.begin(), bytes.end()},
            calibrate(picture, card),
            compare(picture, card),
            ReadingPicture{std::make_shared<const Frame>(picture), original, repair, card, "six-step-card"}};
    }

    PracticeScene scene;
    Region original, repair;
    Frame frame;
};

}  // namespace tonemend::testing
