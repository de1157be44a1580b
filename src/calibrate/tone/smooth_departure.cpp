#include "calibrate/tone/smooth_departure.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/NumericalDiff>

#include "colour/srgb_curve.h"

namespace tonemend {
namespace {

constexpr double weakest_hold = 1e-7, strongest_hold = 1e3;

// e·(1 − e)·Tₖ(2e − 1)
std::array<double, 4> terms(double e) {
    const double x = 2 * e - 1, bump = e * (1 - e);
    return {bump, bump * x, bump * (2 * x * x - 1), bump * (4 * x * x * x - 3 * x)};
}

double depart(double e, const std::array<double, 4>& c) {
    const auto t = terms(e);
    return e + c[0] * t[0] + c[1] * t[1] + c[2] * t[2] + c[3] * t[3];
}

// Misfit of each step in sRGB code, then the held coefficients. Unknowns: gain, black, c.
struct Residuals {
    using Scalar = double;
    using InputType = Eigen::VectorXd;
    using ValueType = Eigen::VectorXd;
    using JacobianType = Eigen::MatrixXd;
    enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

    std::vector<double> code, truth;
    double hold = weakest_hold;

    int inputs() const { return 6; }
    int values() const { return static_cast<int>(code.size()) + 4; }
    int operator()(const Eigen::VectorXd& unknowns, Eigen::VectorXd& misfit) const {
        const std::array<double, 4> c{unknowns[2], unknowns[3], unknowns[4], unknowns[5]};
        Eigen::Index row = 0;
        for (std::size_t i = 0; i < code.size(); ++i) {
            misfit[row++] = depart(code[i], c) - encode_srgb(unknowns[0] * truth[i] + unknowns[1]);
        }
        for (std::size_t k = 0; k < 4; ++k) {
            misfit[row++] = std::sqrt(hold) * static_cast<double>((k + 1) * (k + 1)) * c[k];
        }
        return 0;
    }
};

SmoothDeparture solve(const Residuals& residuals, double start_gain) {
    Eigen::VectorXd unknowns(6);
    unknowns << start_gain, 0.002, 0, 0, 0, 0;
    const Eigen::NumericalDiff<Residuals, Eigen::Central> differentiable(residuals);
    Eigen::LevenbergMarquardt<Eigen::NumericalDiff<Residuals, Eigen::Central>> solver(
        const_cast<Eigen::NumericalDiff<Residuals, Eigen::Central>&>(differentiable));
    solver.parameters.maxfev = 400;
    solver.parameters.ftol = solver.parameters.xtol = 1e-13;
    solver.minimize(unknowns);
    return {unknowns[0], unknowns[1], {unknowns[2], unknowns[3], unknowns[4], unknowns[5]}};
}

}  // namespace

double SmoothDeparture::light(double seen) const {
    const double code = encode_srgb(seen);
    // Beyond black and white the departure has nothing to hold on to: sRGB's own curve goes on from there.
    const double straight = code <= 0 || code >= 1 ? code : depart(code, c);
    return (decode_srgb(straight) - black) / gain;
}

bool SmoothDeparture::rises() const {
    double last = 0;
    for (int i = 1; i <= 200; ++i) {
        const double value = depart(i / 200.0, c);
        if (value <= last) return false;
        last = value;
    }
    return gain > 0;
}

SmoothDeparture fit_departure(const std::vector<CurvePoint>& points) {
    Residuals residuals;
    double seen = 0, truth = 0;
    for (const CurvePoint& point : points) {
        residuals.code.push_back(encode_srgb(point.seen));
        residuals.truth.push_back(point.truth);
        seen += point.seen, truth += point.truth;
    }
    SmoothDeparture fit;
    for (residuals.hold = weakest_hold; residuals.hold <= strongest_hold; residuals.hold *= 10) {
        fit = solve(residuals, seen / truth);
        if (fit.rises()) return fit;
    }
    return {std::max(seen / truth, 1e-6), 0, {}};
}

}  // namespace tonemend
