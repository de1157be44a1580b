#include "live/measure_frame.h"

#include "picture/input_error.h"

namespace tonemend {
namespace {

// The regions have names here, not command-line options.
std::string without_dashes(std::string text) {
    for (const char* option : {"--original", "--repair"})
        if (const auto at = text.find(option); at != std::string::npos) text.erase(at, 2);
    return text;
}

}  // namespace

const Card& FrameMeter::card(const std::string& name) {
    if (name != card_name_) {
        card_ = read_card(locate_card(name));
        card_name_ = name;
    }
    return card_;
}

void FrameMeter::measure(const MeasureRequest& request, BenchState& state) {
    const Frame& frame = *state.frame;
    state.regions = request.regions;
    try {
        state.card = watch_.find(frame);
        if (!state.card) {
            state.obstacle = "No card frame in the picture: lay it beside the work, flat and whole in view.";
            return;
        }
        state.calibration =
            std::make_shared<const Calibration>(calibrate_on_card(frame, card(request.card), *state.card));
        if (!request.regions.original || !request.regions.repair) return;
        state.comparison = compare_regions(frame, *state.calibration, *request.regions.original,
                                           *request.regions.repair, request.tolerance);
    } catch (const InputError& error) {
        state.comparison.reset();
        state.obstacle = without_dashes(error.what());
    }
}

}  // namespace tonemend
