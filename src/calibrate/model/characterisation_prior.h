#pragma once

#include <Eigen/Core>
#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/model/model_form.h"
#include "calibrate/model/repair_colourants.h"
#include "calibrate/model/stated_light.h"

namespace tonemend {

/// Scatter of the error of a difference between two woods, CIELAB: at a distance d (ΔE*ab) its covariance is
/// `always` + d² `share`.
struct DifferenceScatter {
    Eigen::Matrix3d always = Eigen::Matrix3d::Zero();
    Eigen::Matrix3d share = Eigen::Matrix3d::Zero();
};

/// The light for which a patch's colour is stated.
enum class StatedFor {
    d50,          ///< CIE D50, as card files have it
    temperature,  ///< light_of_temperature
    family,       ///< the plainest lamp of its family: led_light, or light_of_temperature
};
inline constexpr std::size_t stated_for_count = 3;

/// Patches whose colours are stated for another light than the camera sees them under show another theta
/// than the camera's own: the way from what it sees to what is stated. Both go with the lamp and the camera,
/// so the one tells of the other.
struct StatedPrior {
    Eigen::VectorXd mean;        ///< of the theta that patches show
    Eigen::MatrixXd covariance;  ///< of it
    Eigen::MatrixXd cross;       ///< of the camera's own theta (rows) with it (columns)
};

/// What cameras in general, each with its own matrix, do in one form.
struct FormPrior {
    Eigen::VectorXd mean;                              ///< of theta (see change_of) over cameras
    Eigen::MatrixXd covariance;                        ///< of theta over cameras
    std::array<StatedPrior, stated_for_count> stated;  ///< a StatedFor each
    /// Mean square of what a camera's own best theta leaves of a wood's CIELAB error, coloured as the repairs
    /// of each RepairColourants are: no model takes it away.
    std::array<Eigen::Matrix3d, repair_colourants_count> residual{};
    Eigen::Matrix3d residual_other = Eigen::Matrix3d::Zero();  ///< of smooth reflectances that are no wood's
    std::array<DifferenceScatter, repair_colourants_count> difference;  ///< likewise, a RepairColourants each
};

/// The same under one kind of lamp.
struct LightPrior {
    LampFamily family = LampFamily::thermal;
    double kelvin = 0;
    FormPrior linear, root;

    const FormPrior& of(ModelForm form) const { return form == ModelForm::linear ? linear : root; }
};

/// calibration/characterisation-prior.json: lamps of several colour temperatures, each learnt from many
/// simulated cameras.
struct CharacterisationPrior {
    std::vector<LightPrior> lights;

    /// For `light`: the lamps nearest in reciprocal temperature, of its family or of both, mixed. Absent: all
    /// lamps mixed, so that the covariance spans them.
    LightPrior under(const std::optional<StatedLight>& light) const;
};

std::string to_json_text(const CharacterisationPrior& prior);
/// Throws InputError: not a prior's JSON. `name` for the message.
CharacterisationPrior parse_prior(const std::string& text, const std::string& name);
/// The file, read once. Throws InputError when it cannot be found or read.
const CharacterisationPrior& characterisation_prior();

}  // namespace tonemend
