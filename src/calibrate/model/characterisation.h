#pragma once

#include <optional>
#include <string>
#include <vector>

#include "calibrate/model/colour_model.h"

namespace tonemend {

/// How well a characterisation explains one patch of known colour.
struct PatchFit {
    std::string name;
    double residual_de2000 = 0;                  ///< with the patch in the fit
    std::optional<double> leave_one_out_de2000;  ///< with it left out; absent when nothing was fitted
};

/// What no model of the camera explains, because a camera is not the standard observer: covariances of errors
/// in CIELAB.
struct Unexplained {
    Matrix3 common;       ///< of a wood's colour; woods of like spectra share the error
    Matrix3 apart;        ///< of the difference between the two regions, however near their colours
    Matrix3 apart_share;  ///< and what each ΔE*ab² of their distance adds to that
};

/// How a camera under one light sees colour: the way from its calibrated light to XYZ, and what is not known
/// of it.
struct Characterisation {
    ColourModel model;
    /// What the model may be off by: the sum of these, each times a standard normal number of its own. None
    /// moves white.
    std::vector<ModelChange> doubt;
    /// Standard uncertainty of the difference between two colours along each CIELAB axis, as a share of their
    /// distance, beside `unexplained`: what an unknown tone curve makes of it.
    double contrast = 0;
    Unexplained unexplained;
    std::vector<PatchFit> patches;       ///< those that were fitted
    std::optional<double> light_kelvin;  ///< colour temperature of the light, where it is known
    std::string description;             ///< what was done, for people
};

/// Doubt that moves each of X, Y, Z by `u` (relative to white) for each unit by which a colour's X or Z
/// departs from a grey's.
std::vector<ModelChange> doubt_beside_white(double u);

}  // namespace tonemend
