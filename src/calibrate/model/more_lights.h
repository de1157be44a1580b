#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

#include "colour/matrix3.h"
#include "colour/xyz.h"

namespace tonemend {

/// What a camera sees of one surface under two or three lights, light one first, in the working space of
/// ColourModel: white is 1, 1, 1 under each.
using SeenUnderLights = std::vector<Vector3>;
/// What the first so many lights show.
SeenUnderLights first_lights(const SeenUnderLights& seen, std::size_t lights);

/// A surface whose colour under light one is known.
struct KnownSurface {
    SeenUnderLights seen;
    XYZ xyz;  ///< under light one, adapted to D50
};

/// What spoils a mean under one light; standard uncertainties relative to the mean.
struct LightNoise {
    double brightness = 0;  ///< of all channels alike: uneven light, what registration leaves
    double channel = 0;     ///< of each channel by itself: the card's steps, the tone curve
};
using LightNoises = std::vector<LightNoise>;  ///< a light each, light one first

/// Colour under light one from what a camera sees under several: the camera's own matrix, plus a part for
/// each way in which a surface departs from grey: R − G and B − G under light one, and what R, G and B change
/// by from light one to each further light. A grey shows none of these, so white stays white; all of them
/// grow in proportion to the light.
struct ManyLightsModel {
    std::size_t lights = 0;  ///< 2 or 3; 1 is the same without further lights
    Eigen::VectorXd theta;   ///< XYZ a unit of each feature: all of X, then Y, then Z

    XYZ to_xyz(const SeenUnderLights& seen) const;
};

/// How many features so many lights have: 2 + 3 × (lights − 1).
std::size_t feature_count(std::size_t lights);
Eigen::VectorXd features(const SeenUnderLights& seen);

/// What cameras in general do under the same lights.
struct ManyLightsPrior {
    std::size_t lights = 0;
    Eigen::VectorXd mean;        ///< of theta over cameras
    Eigen::MatrixXd covariance;  ///< of theta over cameras
    double residual = 0;         ///< root mean square of what one camera's best theta leaves, ΔE2000 an axis
    double contrast =
        0;  ///< the same of the difference between two surfaces of like colour, as a share of their
            ///< distance in ΔE2000: what no model of so many lights can tell of a change of colourant
};

/// Learns from what each of several cameras sees of many surfaces. Each camera's own theta is the least
/// squares fit in ΔE2000 with `noise` in the light that it sees, so that a theta which gains nothing over
/// that noise is not learnt. `lights` may be fewer than were seen: the first ones then count.
ManyLightsPrior learn_many_lights(const std::vector<std::vector<KnownSurface>>& cameras, std::size_t lights,
                                  const LightNoises& noise);

/// A camera's own theta, from the prior and from known surfaces in the same pictures.
struct ManyLightsFit {
    ManyLightsModel model;
    Eigen::MatrixXd covariance;  ///< of theta
    double residual = 0;         ///< as the prior's
    double contrast = 0;         ///< as the prior's
};

/// The posterior of theta (Bayesian linear regression, errors in ΔE2000): with no known surface it is the
/// prior.
ManyLightsFit fit_many_lights(const ManyLightsPrior& prior, const std::vector<KnownSurface>& known,
                              const LightNoises& noise);

}  // namespace tonemend
