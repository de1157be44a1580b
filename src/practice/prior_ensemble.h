#pragma once

#include <cstdint>
#include <vector>

#include "calibrate/model/learn_prior.h"
#include "practice/camera.h"
#include "practice/lamp.h"

namespace tonemend {

/// What the cameras of an ensemble look at: the same for every lamp.
struct EnsembleSubjects {
    std::vector<Bands> woods, others;
    struct TwoWoods {
        Bands original, repair;
    };
    std::array<std::vector<TwoWoods>, repair_colourants_count> pairs;
};

/// Stained woods, other smooth reflectances, and pairs of original and repair up to 8 ΔE2000 apart under CIE
/// D65, drawn by `seed`: 240, 120, and 60 of each kind.
EnsembleSubjects draw_subjects(std::uint64_t seed);

/// What `camera` shows of the subjects under `lamp` once a card has made white 1, 1, 1; their colours under
/// `lamp` and under the lamps for which cards state them, a StatedFor each.
CameraSight look_at_subjects(const EnsembleSubjects& subjects, const PracticeCamera& camera, const Lamp& lamp,
                             const std::array<Lamp, stated_for_count>& stated);

/// A lamp to learn from: of the family and temperature, its spectrum drawn by `seed`: Planckian radiators
/// and, from 4000 K, daylight; LEDs with their blue peak and phosphor in different places.
Lamp draw_lamp(LampFamily family, double kelvin, std::uint64_t seed);

/// The prior under one kind of lamp, learnt from `cameras` cameras, numbers from 1000 on, which no practice
/// picture uses.
LightPrior learn_light(const EnsembleSubjects& subjects, LampFamily family, double kelvin, int cameras);

/// What calibration/characterisation-prior.json holds.
inline constexpr int prior_cameras = 150;
struct PriorLamp {
    LampFamily family;
    double kelvin;
};
const std::vector<PriorLamp>& prior_lamps();
inline constexpr std::uint64_t prior_seed = 1000;
CharacterisationPrior learn_prior();

}  // namespace tonemend
