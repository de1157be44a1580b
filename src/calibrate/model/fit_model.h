#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "calibrate/model/characterisation_prior.h"
#include "colour/lab.h"

namespace tonemend {

/// A patch of known colour as the camera sees it.
struct KnownPatch {
    std::string name;
    Vector3 working{};           ///< working-space light
    Lab lab;                     ///< under the light of the picture, adapted to D50
    Eigen::Matrix3d covariance;  ///< of its CIELAB error: reading, stated value, and what no model explains
    /// What one standard deviation of the light's slope across and down the picture adds to that: CIELAB, a
    /// column each. The patches share it.
    Eigen::Matrix<double, 3, 2> by_slope = Eigen::Matrix<double, 3, 2>::Zero();
};

/// theta (see change_of) after the patches have been seen.
struct ModelFit {
    ModelForm form = ModelForm::linear;
    Eigen::VectorXd theta;
    Eigen::MatrixXd covariance;
    /// The patches' errors against what prior and covariances lead to expect: chi-squared over the degrees of
    /// freedom. Above 1 the covariances of the patches were scaled up until it was 1.
    double misfit = 0;

    /// The model in working space: `straight` (the camera's own matrix) changed by theta.
    ColourModel model(const ColourModel& straight) const;
    /// A direction a column of the covariance's root.
    std::vector<ModelChange> doubt() const;
};

/// Normal prior of a camera's own theta, and of the theta that patches show (see StatedPrior).
struct ThetaPrior {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
    StatedPrior stated;
};

/// Bayesian linear least squares in CIELAB around each patch (JCGM 100's linear propagation; C. E. Rasmussen,
/// C. K. I. Williams, "Gaussian Processes for Machine Learning" (2006), 2.1): the posterior of the camera's
/// own theta. Without patches it is the prior.
ModelFit fit_model(ModelForm form, const ThetaPrior& prior, const std::vector<KnownPatch>& patches);

/// ΔE2000 of the patch against what the fit to all of `others` and the prior lead to expect as stated.
double predict_patch(ModelForm form, const ThetaPrior& prior, const std::vector<KnownPatch>& others,
                     const KnownPatch& patch);

/// predict_patch's ΔE2000 for each patch by the fit to all the others.
std::vector<double> leave_one_out(ModelForm form, const ThetaPrior& prior,
                                  const std::vector<KnownPatch>& patches);

}  // namespace tonemend
