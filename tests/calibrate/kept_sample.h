#pragma once

#include "calibrate/keep/kept_calibration.h"
#include "practice/render.h"
#include "practice/scene.h"

namespace tonemend::testing {

inline PracticeOptions sample_options(std::uint64_t seed = 3) {
    PracticeOptions options;
    options.seed = seed;
    options.width = 900, options.height = 675;
    return options;
}

/// A practice picture with its calibration.
struct CalibratedScene {
    explicit CalibratedScene(const PracticeOptions& options = sample_options(),
                             const CalibrationInputs& with = {})
        : scene(make_scene(options)),
          frame(render(scene)),
          inputs(with),
          calibration(calibrate_on_card(frame, scene.card->card, scene.card->corners, with)) {}

    KeptCalibration keep() const {
        KeptCalibration kept{"tonemend 0.1.0", "2026-11-25T10:09:00Z", frame, inputs, calibration, {}};
        kept.picture.samples.clear();
        return kept;
    }

    PracticeScene scene;
    Frame frame;
    CalibrationInputs inputs;
    Calibration calibration;
};

/// A model with a root part that sees white as white: what a root polynomial fit makes.
inline ColourModel bent(const ColourModel& model) {
    ColourModel result = model;
    const std::array<std::array<double, 3>, 3> bends{
        {{0.08, -0.03, 0.02}, {0.03, 0.02, -0.04}, {-0.02, 0.05, 0.03}}};
    // √(RG), √(GB), √(RB): each beside the mean of the two that it is made of.
    const std::array<std::array<std::size_t, 2>, 3> pairs{{{0, 1}, {1, 2}, {0, 2}}};
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t k = 0; k < 3; ++k) {
            result.from_working.roots.m[row][k] = bends[row][k];
            for (const std::size_t part : pairs[k])
                result.from_working.linear.m[row][part] -= bends[row][k] / 2;
        }
    return result;
}

}  // namespace tonemend::testing
