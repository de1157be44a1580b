#include "calibrate/model/fit_model.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "colour/difference.h"
#include "colour/rgb_space.h"

namespace tonemend {
namespace {

Eigen::Vector3d vector_of(const Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

XYZ straight_xyz(const Vector3& working) {
    static const ModelChange straight{rgb_to_xyz_d50(romm_rgb), {}};
    return straight.of(working);
}

XYZ changed_xyz(ModelForm form, const Eigen::VectorXd& theta, const Vector3& working) {
    const XYZ from = straight_xyz(working), moved = change_of(form, theta).of(working);
    return {from.X + moved.X, from.Y + moved.Y, from.Z + moved.Z};
}

// Change of CIELAB for a small change of XYZ.
Eigen::Matrix3d lab_slope(const XYZ& xyz) {
    const double step = 1e-5 * std::max(xyz.Y, 0.01);
    Eigen::Matrix3d slope;
    for (Eigen::Index k = 0; k < 3; ++k) {
        XYZ up = xyz, down = xyz;
        (k == 0 ? up.X : k == 1 ? up.Y : up.Z) += step;
        (k == 0 ? down.X : k == 1 ? down.Y : down.Z) -= step;
        slope.col(k) = (vector_of(to_lab(up, d50_icc)) - vector_of(to_lab(down, d50_icc))) / (2 * step);
    }
    return slope;
}

// All patches' errors as A·theta + noise, linear around the stated
// colours.
struct Stacked {
    Eigen::MatrixXd design;  // CIELAB a unit of theta
    Eigen::VectorXd target;  // stated − what the camera's own matrix gives, to first order
    Eigen::MatrixXd noise;
};

Stacked stack(ModelForm form, const std::vector<KnownPatch>& patches) {
    const Eigen::Index n = term_count(form), rows = 3 * static_cast<Eigen::Index>(patches.size());
    Stacked all{Eigen::MatrixXd(rows, 3 * n), Eigen::VectorXd(rows), Eigen::MatrixXd::Zero(rows, rows)};
    Eigen::MatrixXd by_slope(rows, 2);
    Eigen::Index row = 0;
    for (const KnownPatch& patch : patches) {
        const XYZ stated = to_xyz(patch.lab, d50_icc), seen = straight_xyz(patch.working);
        const Eigen::Matrix3d slope = lab_slope(stated);
        const Eigen::VectorXd terms = departure_terms(form, patch.working);
        for (Eigen::Index out = 0; out < 3; ++out)
            all.design.block(row, out * n, 3, n) = slope.col(out) * terms.transpose();
        all.target.segment(row, 3) =
            slope * Eigen::Vector3d{stated.X - seen.X, stated.Y - seen.Y, stated.Z - seen.Z};
        all.noise.block(row, row, 3, 3) = patch.covariance;
        by_slope.middleRows(row, 3) = patch.by_slope;
        row += 3;
    }
    all.noise += by_slope * by_slope.transpose();
    return all;
}

}  // namespace

ColourModel ModelFit::model(const ColourModel& straight) const {
    return changed(straight, change_of(form, theta));
}

std::vector<ModelChange> ModelFit::doubt() const {
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(covariance);
    std::vector<ModelChange> directions;
    for (Eigen::Index k = 0; k < covariance.cols(); ++k) {
        const double variance = solver.eigenvalues()[k];
        if (variance <= 0) continue;
        directions.push_back(change_of(form, std::sqrt(variance) * solver.eigenvectors().col(k)));
    }
    return directions;
}

ModelFit fit_model(ModelForm form, const ThetaPrior& prior, const std::vector<KnownPatch>& patches) {
    ModelFit fit{form, prior.mean, prior.covariance, 0};
    if (patches.empty()) return fit;
    const Stacked all = stack(form, patches);
    const Eigen::VectorXd innovation = all.target - all.design * prior.stated.mean;
    const Eigen::MatrixXd from_prior = all.design * prior.stated.covariance * all.design.transpose();
    const auto misfit = [&](double scale) {
        const Eigen::MatrixXd expected = from_prior + scale * all.noise;
        return innovation.dot(expected.ldlt().solve(innovation)) / static_cast<double>(innovation.size());
    };
    fit.misfit = misfit(1);
    double scale = 1;
    while (misfit(scale) > 1 && scale < 1e6) scale *= 1.1;
    const Eigen::MatrixXd expected = from_prior + scale * all.noise;
    const Eigen::MatrixXd shown = all.design * prior.stated.cross.transpose();
    const Eigen::MatrixXd gain = expected.ldlt().solve(shown).transpose();
    fit.theta = prior.mean + gain * innovation;
    const Eigen::MatrixXd left = prior.covariance - gain * shown;
    fit.covariance = (left + left.transpose()) / 2;
    return fit;
}

double predict_patch(ModelForm form, const ThetaPrior& prior, const std::vector<KnownPatch>& others,
                     const KnownPatch& patch) {
    // The theta that patches show, by itself.
    const StatedPrior& stated = prior.stated;
    const ThetaPrior shown{
        stated.mean, stated.covariance, {stated.mean, stated.covariance, stated.covariance}};
    const Eigen::VectorXd theta = fit_model(form, shown, others).theta;
    return ciede2000(patch.lab, to_lab(changed_xyz(form, theta, patch.working), d50_icc)).value;
}

std::vector<double> leave_one_out(ModelForm form, const ThetaPrior& prior,
                                  const std::vector<KnownPatch>& patches) {
    std::vector<double> errors;
    for (std::size_t left = 0; left < patches.size(); ++left) {
        std::vector<KnownPatch> others = patches;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(left));
        errors.push_back(predict_patch(form, prior, others, patches[left]));
    }
    return errors;
}

}  // namespace tonemend
