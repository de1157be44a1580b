#include "calibrate/flat/even_out_card.h"

#include <fmt/format.h>

#include <cmath>

#include "calibrate/flat/fit_flat_field.h"
#include "calibrate/flat/paper_spots.h"
#include "calibrate/tone/steps.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr int rounds = 3;

void require_size(const Frame& frame, int width, int height, const std::string& name) {
    if (frame.width == width && frame.height == height) return;
    throw InputError(
        fmt::format("{}: is for pictures of {} × {} pixels, but {} is {} × {}; take both with one camera "
                    "from one place, at one size and not cropped",
                    name, width, height, frame.name, frame.width, frame.height));
}

// The pictures beside this one, and of the card's places this one's too.
FlatSamples gather(const Frame& frame, const FoundCard* found, const FlatSamples& given,
                   const Calibration& calibration) {
    FlatSamples samples = given;
    if (samples.source == FlatSource::card_places)
        add_card_place(samples, calibration.patches,
                       found == nullptr ? std::vector<PatchReading>{} : read_paper(frame, *found));
    return samples;
}

// The relative change of light a pixel, mean of the channels.
Point slope_of(const FlatField& field, const Point& at) {
    const auto brightness = [&](double dx, double dy) {
        const Vector3 light = field.light_at({at.x + dx, at.y + dy});
        return std::log(light[0] * light[1] * light[2]) / 3;
    };
    return {(brightness(1, 0) - brightness(-1, 0)) / 2, (brightness(0, 1) - brightness(0, -1)) / 2};
}

std::optional<double> card_light(const Frame& frame, const Calibration& calibration) {
    const CaptureFacts& facts = frame.facts;
    if (!facts.exposure_seconds || !facts.f_number || !facts.iso) return std::nullopt;
    const double exposure = *facts.exposure_seconds * *facts.iso / (*facts.f_number * *facts.f_number);
    const double white = 1 / calibration.curves[1].gain();
    if (!(exposure > 0) || !std::isfinite(white / exposure)) return std::nullopt;
    return white / exposure;
}

}  // namespace

void even_out_card(const Frame& frame, const FoundCard* found, const CalibrationInputs& inputs,
                   Calibration& calibration) {
    const Point middle = middle_of(calibration.card_corners);
    FlatSamples samples;
    if (inputs.flat_field) {
        require_size(frame, inputs.flat_field->width, inputs.flat_field->height, "the flat field");
        calibration.flat_field = *inputs.flat_field;
        calibration.flat_field->middle = middle;
    } else if (inputs.flat_samples) {
        require_size(frame, inputs.flat_samples->width, inputs.flat_samples->height,
                     inputs.flat_samples->name);
        samples = gather(frame, found, *inputs.flat_samples, calibration);
    } else {
        return;
    }
    for (int round = 1; round <= rounds; ++round) {
        if (!inputs.flat_field)
            calibration.flat_field =
                (round < rounds ? draft_flat_field : fit_flat_field)(samples, calibration.curves, middle);
        for (PatchReading& patch : calibration.patches)
            patch.light = calibration.flat_field->light_at(middle_of(patch.area));
        calibration.curves = fit_curves(frame, calibration.patches, inputs.black_level);
    }
    for (PatchReading& patch : calibration.patches) {
        const Point slope = slope_of(*calibration.flat_field, middle_of(patch.area));
        patch.slope_x -= slope.x, patch.slope_y -= slope.y;
    }
    if (!inputs.flat_field) calibration.flat_field->card_light = card_light(frame, calibration);
}

EvenOut even_light(const Calibration& calibration) {
    if (!calibration.flat_field) return nullptr;
    return [&calibration](const Vector3& seen, const Point& place) {
        const Vector3 light = calibration.flat_field->light_at(place);
        Vector3 evened{};
        for (std::size_t c = 0; c < 3; ++c) evened[c] = calibration.curves[c](seen[c]) / light[c];
        return evened;
    };
}

}  // namespace tonemend
