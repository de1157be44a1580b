#include "live/measure_frame.h"

#include <algorithm>
#include <string_view>
#include <utility>

#include "picture/input_error.h"
#include "picture/polygon.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

// What the command line has options for is done by hand here.
std::string without_options(std::string text) {
    using Words = std::pair<std::string_view, std::string_view>;
    for (const auto& [option, words] :
         {Words{"--original", "original"}, Words{"--repair", "repair"}, Words{" (--card-at)", ""},
          Words{"with --card-at", "by hand"}, Words{"give --card-at", "mark its corners by hand"},
          Words{"--card", "card file"}, Words{"check --black-level and the exposure", "check the exposure"}})
        if (const auto at = text.find(option); at != std::string::npos)
            text.replace(at, option.size(), words);
    return text;
}

void require_card_shape(const Quad& corners) {
    if (is_convex(corners)) return;
    throw InputError(
        "The four corners do not outline a card: mark them again, in turn around the card from its top "
        "left.");
}

}  // namespace

const Card& FrameMeter::card(const std::string& name) {
    if (name != card_name_) {
        card_ = read_card(locate_card(name));
        card_name_ = name;
    }
    return card_;
}

CalibrationInputs FrameMeter::inputs(const MeasureRequest& request) {
    CalibrationInputs inputs = request.inputs;
    if (request.flat.empty()) return inputs;
    if (flat_ != request.flat || flat_card_ != request.card) {
        flat_ = request.flat, flat_card_ = request.card;
        flat_samples_.reset(), flat_trouble_.clear();
        try {
            flat_samples_ =
                std::make_shared<const FlatSamples>(read_flat_pictures(request.flat, card(request.card)));
        } catch (const InputError& error) {
            flat_trouble_ = error.what();
        }
    }
    if (!flat_samples_) throw InputError(flat_trouble_);
    inputs.flat_samples = flat_samples_;
    return inputs;
}

void FrameMeter::measure(const MeasureRequest& request, BenchState& state) {
    if (!state.measured) state.measured = state.frame;
    const Frame& frame = *state.measured;
    state.regions = request.regions;
    state.card_name = request.card;
    try {
        if (const auto& marked = request.regions.card) {
            Quad corners{};
            std::copy_n(marked->corners.begin(), corners.size(), corners.begin());
            require_card_shape(corners);
            state.card_window = corners;
            state.calibration = std::make_shared<const Calibration>(
                calibrate_on_card(frame, card(request.card), corners, inputs(request)));
        } else {
            state.card = watch_.find(frame);
            if (!state.card) {
                state.obstacle =
                    "No card frame in the picture: lay it beside the work, flat and whole in view.";
                return;
            }
            state.card_window = state.card->window;
            state.calibration = std::make_shared<const Calibration>(
                calibrate_on_card(frame, card(request.card), *state.card, inputs(request)));
        }
        if (!request.regions.original || !request.regions.repair) return;
        state.comparison = compare_regions(frame, *state.calibration, *request.regions.original,
                                           *request.regions.repair, request.tolerance);
        if (request.held)
            state.held = compare_with_held(request.held, request.lamp, frame, state.calibration,
                                           *state.comparison, request.inputs.light);
    } catch (const InputError& error) {
        state.comparison.reset();
        state.obstacle = without_options(error.what());
    } catch (const std::exception& error) {
        // No picture should come here; if one does, the readings go on.
        state.comparison.reset();
        state.obstacle = one_line(error.what(), 200) + "; show another picture if this goes on";
    }
}

}  // namespace tonemend
