#pragma once

#include <Eigen/Core>

#include "calibrate/model/colour_model.h"

namespace tonemend {

/// How a camera's departure from its own matrix is written.
enum class ModelForm {
    linear,  ///< 2 terms: R − G, B − G
    root,    ///< 3 more: √(RG) − (R + G)/2, √(GB) − (G + B)/2, √(RB) − (R + B)/2
};

/// Terms of the form, in working-space light. All are 0 for a grey, so no sum of them moves white, and all
/// grow in proportion to the light.
Eigen::VectorXd departure_terms(ModelForm form, const Vector3& working);
Eigen::Index term_count(ModelForm form);

/// The change of a model whose coefficients are `theta`: XYZ a unit of each term; all of X's, then Y's, then
/// Z's.
ModelChange change_of(ModelForm form, const Eigen::VectorXd& theta);

/// `model` with the change added to its coefficients.
ColourModel changed(ColourModel model, const ModelChange& change);

}  // namespace tonemend
