#include "calibrate/model/fit_model.h"

#include <Eigen/Dense>
#include <cmath>
#include <random>

#include "calibrate/model/root_polynomial.h"
#include "colour/rgb_space.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

const ColourModel& straight() {
    static const ColourModel model = ColourModel::of_matrix(rgb_to_xyz_d50(romm_rgb));
    return model;
}

Eigen::VectorXd some_theta(ModelForm form) {
    return Eigen::VectorXd::LinSpaced(3 * term_count(form), -0.05, 0.06);
}

ThetaPrior plain_prior(ModelForm form, double u) {
    const Eigen::Index n = 3 * term_count(form);
    const Eigen::VectorXd mean = Eigen::VectorXd::Zero(n);
    const Eigen::MatrixXd covariance = u * u * Eigen::MatrixXd::Identity(n, n);
    return {mean, covariance, {mean, covariance, covariance}};
}

// Patches that a camera of that theta sees, CIELAB standard deviation `u` stated for each axis.
std::vector<KnownPatch> patches_of(ModelForm form, const Eigen::VectorXd& theta, int count, double u) {
    std::mt19937 engine(7);
    const auto uniform = [&] { return 0.05 + 0.6 * static_cast<double>(engine()) / 4294967296.0; };
    std::vector<KnownPatch> patches;
    const ModelFit truth{form, theta, {}, 0};
    for (int i = 0; i < count; ++i) {
        KnownPatch patch;
        patch.name = std::to_string(i);
        patch.working = {uniform(), uniform(), uniform()};
        patch.lab = to_lab(truth.model(straight()).from_working.of(patch.working), d50_icc);
        patch.covariance = u * u * Eigen::Matrix3d::Identity();
        patches.push_back(patch);
    }
    return patches;
}

}  // namespace

TEST_CASE("No coefficient of either form moves a grey") {
    // Follows from the terms' definition.
    for (const ModelForm form : {ModelForm::linear, ModelForm::root}) {
        const XYZ moved = change_of(form, some_theta(form)).of({0.37, 0.37, 0.37});
        CHECK(std::abs(moved.X) + std::abs(moved.Y) + std::abs(moved.Z) < 1e-15);
    }
}

TEST_CASE("The change of a model is its coefficients times the terms of the form") {
    // The second way to the same number: the sum written out.
    const Vector3 working{0.5, 0.3, 0.1};
    for (const ModelForm form : {ModelForm::linear, ModelForm::root}) {
        const Eigen::VectorXd theta = some_theta(form), terms = departure_terms(form, working);
        const XYZ moved = change_of(form, theta).of(working);
        const Eigen::Index n = terms.size();
        CHECK(moved.X == Approx(theta.segment(0, n).dot(terms)).margin(1e-15));
        CHECK(moved.Y == Approx(theta.segment(n, n).dot(terms)).margin(1e-15));
        CHECK(moved.Z == Approx(theta.segment(2 * n, n).dot(terms)).margin(1e-15));
    }
}

TEST_CASE("Without patches the fit is the prior, to the last digit") {
    const ThetaPrior prior = plain_prior(ModelForm::linear, 0.1);
    const ModelFit fit = fit_model(ModelForm::linear, prior, {});
    CHECK(fit.theta == prior.mean);
    CHECK(fit.covariance == prior.covariance);
}

TEST_CASE(
    "With a wide prior and exact patches the fit finds the camera, as plain root-polynomial regression "
    "does") {
    // Peer: regress_on_terms, unregularised, checked against a published example.
    const Eigen::VectorXd truth = some_theta(ModelForm::root);
    const auto patches = patches_of(ModelForm::root, truth, 24, 1e-4);
    const ModelFit fit = fit_model(ModelForm::root, plain_prior(ModelForm::root, 10), patches);
    CHECK((fit.theta - truth).cwiseAbs().maxCoeff() < 2e-3);
    std::vector<Vector3> seen, wanted;
    for (const KnownPatch& patch : patches) {
        const XYZ xyz = to_xyz(patch.lab, d50_icc);
        seen.push_back(patch.working), wanted.push_back({xyz.X, xyz.Y, xyz.Z});
    }
    const Eigen::MatrixXd peer = regress_on_terms(seen, wanted, 2);
    const ModelChange ours = fit.model(straight()).from_working;
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column) {
            const auto at = static_cast<Eigen::Index>(row), of = static_cast<Eigen::Index>(column);
            CHECK(std::abs(ours.linear.m[row][column] - peer(at, of)) < 3e-3);
            CHECK(std::abs(ours.roots.m[row][column] - peer(at, of + 3)) < 3e-3);
        }
}

TEST_CASE("A patch narrows the doubt by as much as the formula for one number says") {
    // C. E. Rasmussen, C. K. I. Williams (2006), 2.1, for a prior of one direction: 1/v = 1/v0 + |s|²/u².
    const Eigen::Index n = 6;
    ThetaPrior prior = plain_prior(ModelForm::linear, 1);
    Eigen::VectorXd direction = Eigen::VectorXd::Zero(n);
    direction[2] = 1;
    prior.covariance = prior.stated.covariance = prior.stated.cross =
        1e-4 * direction * direction.transpose();
    const auto patch = patches_of(ModelForm::linear, Eigen::VectorXd::Zero(n), 1, 0.5);
    // Only Y moves, by R − G times the coefficient.
    const XYZ xyz = to_xyz(patch[0].lab, d50_icc);
    const double h = 1e-6, terms = patch[0].working[0] - patch[0].working[1];
    const Lab up = to_lab({xyz.X, xyz.Y + h * terms, xyz.Z}, d50_icc);
    const double slope = std::hypot(up.L - patch[0].lab.L, up.a - patch[0].lab.a, up.b - patch[0].lab.b) / h;
    const double expected = 1 / (1 / 1e-4 + slope * slope / 0.25);
    CHECK(fit_model(ModelForm::linear, prior, patch).covariance(2, 2) == Approx(expected).epsilon(1e-4));
}

TEST_CASE("A patch with a wrong value widens what is expected of all, and leave-one-out finds it") {
    const Eigen::VectorXd truth = some_theta(ModelForm::linear);
    auto patches = patches_of(ModelForm::linear, truth, 6, 0.3);
    const ThetaPrior prior = plain_prior(ModelForm::linear, 0.1);
    const ModelFit right = fit_model(ModelForm::linear, prior, patches);
    patches[3].lab.b += 12;
    const ModelFit wrong = fit_model(ModelForm::linear, prior, patches);
    CHECK(right.misfit < 1);
    CHECK(wrong.misfit > 10);
    CHECK(wrong.covariance.trace() > 4 * right.covariance.trace());
    const auto errors = leave_one_out(ModelForm::linear, prior, patches);
    CHECK(std::max_element(errors.begin(), errors.end()) - errors.begin() == 3);
}

TEST_CASE("A slope of the light that two patches share is not averaged away as two errors of their own are") {
    const ThetaPrior prior = plain_prior(ModelForm::linear, 0.1);
    const auto plain = patches_of(ModelForm::linear, Eigen::VectorXd::Zero(6), 1, 0.1);
    const Eigen::Vector3d error{0.4, 0.1, 0.2};
    auto own = plain, shared = plain;
    own[0].covariance += error * error.transpose();
    shared[0].by_slope.col(0) = error;
    const auto left = [&](const std::vector<KnownPatch>& patches) {
        return fit_model(ModelForm::linear, prior, patches).covariance;
    };
    // For one patch it is the same thing.
    CHECK((left(own) - left(shared)).cwiseAbs().maxCoeff() < 1e-12);
    own.push_back(own[0]), shared.push_back(shared[0]);
    CHECK(left(shared).trace() > 1.001 * left(own).trace());
    // And on opposite sides of the steps it moves them apart: then it can be told from the camera.
    auto opposite = shared;
    opposite[1].by_slope = -opposite[1].by_slope;
    CHECK(left(opposite).trace() < 0.999 * left(own).trace());
}
