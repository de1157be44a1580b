#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/calibration.h"
#include "calibrate/card/find_card.h"
#include "camera/frame_average.h"
#include "live/held_light.h"
#include "measure/comparison.h"
#include "picture/frame.h"
#include "picture/region.h"

namespace tonemend {

struct DryingSaid;

/// What the person has marked.
struct BenchRegions {
    std::optional<Region> original;
    std::optional<Region> repair;
    std::optional<Region> card;  ///< four corners, clockwise from the card's top left, of a card that lies in
                                 ///< no frame; without it the frame is looked for
};

/// What is known about the bench at one moment. Made whole by the measuring thread and never changed after.
struct BenchState {
    std::uint64_t revision = 0;          ///< counts states; 0: nothing is known yet
    std::shared_ptr<const Frame> frame;  ///< the newest captured, for the screen
    /// What card and comparison were read from: the mean of the last frames of a live source while nothing
    /// moves in them, else `frame` itself.
    std::shared_ptr<const Frame> measured;
    int frames_averaged = 0;                 ///< in `measured`
    Restart restart = Restart::first_frame;  ///< why the mean was last started anew
    /// How `frame` differs from those before it, first_frame when nothing is averaged; absent when it is not
    /// new.
    std::optional<Restart> step;
    std::uint64_t source = 0;        ///< as the capture loop counts sources
    std::uint64_t frame_number = 0;  ///< the capture loop's
    std::chrono::steady_clock::time_point captured;
    std::chrono::milliseconds latency{0};  ///< from the frame's capture to this state
    bool stale = false;                    ///< the source has gone silent; what is here was last known good
    std::string trouble;                   ///< the source's own line while it is

    std::string card_name;          ///< of the description that was asked for, as locate_card takes it
    std::optional<FoundCard> card;  ///< absent also where the card was marked by hand
    std::optional<Quad>
        card_window;  ///< the card's corners that were calibrated on: found, or marked by hand
    std::shared_ptr<const Calibration> calibration;
    BenchRegions regions;  ///< that `comparison` is about
    std::optional<Comparison> comparison;
    std::optional<HeldComparison> held;  ///< against light one, when that is held and there is a comparison
    std::shared_ptr<const DryingSaid> drying;  ///< while the repair is watched; null: it is not
    std::string obstacle;                      ///< one line: why there is no comparison, and the cure
};

}  // namespace tonemend
