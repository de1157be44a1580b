#include "calibrate/model/local_correction.h"

#include <Eigen/Dense>
#include <cmath>
#include <numeric>
#include <utility>

#include "colour/difference.h"

namespace tonemend {
namespace {

// Found on the practice bench (bench_characterisation prints what it leads to).
constexpr double reach = 15;
constexpr double most_deviations = 3, most_de2000 = 1;

std::array<double, 3> axes(const Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

}  // namespace

LocalCorrection::LocalCorrection(const LocalPrior& prior, std::vector<SampleReading> samples)
    : prior_(prior), samples_(std::move(samples)) {
    std::vector<std::size_t> all(samples_.size());
    std::iota(all.begin(), all.end(), 0);
    use(all);
    while (leave_out_worst()) {
    }
}

double LocalCorrection::kernel(const Lab& one, SampleSide its, const Lab& other, SampleSide others,
                               std::size_t axis) const {
    const double rho = prior_.between[axis];
    const bool unknown = its == SampleSide::either || others == SampleSide::either;
    const double material = its == others && !unknown ? 1 : unknown ? (1 + rho) / 2 : rho;
    const double distance = delta_e_76(one, other) / reach;
    return prior_.u[axis] * prior_.u[axis] * material * std::exp(-0.5 * distance * distance);
}

void LocalCorrection::use(const std::vector<std::size_t>& used) {
    used_ = used;
    const auto n = static_cast<Eigen::Index>(used_.size());
    for (std::size_t axis = 0; axis < 3; ++axis) {
        Eigen::MatrixXd covariance(n, n);
        departure_[axis].resize(n);
        for (Eigen::Index i = 0; i < n; ++i) {
            const SampleReading& one = samples_[used_[static_cast<std::size_t>(i)]];
            for (Eigen::Index j = 0; j < n; ++j) {
                const SampleReading& other = samples_[used_[static_cast<std::size_t>(j)]];
                covariance(i, j) = kernel(one.seen, one.sample.side, other.seen, other.sample.side, axis) +
                                   prior_.instrument * prior_.instrument;
            }
            covariance(i, i) = prior_.u[axis] * prior_.u[axis] + one.u[axis] * one.u[axis];
            departure_[axis][i] = axes(one.sample.lab)[axis] - axes(one.seen)[axis];
        }
        inverse_[axis] = covariance.inverse();
    }
}

Eigen::VectorXd LocalCorrection::against(const Lab& seen, SampleSide side, std::size_t axis) const {
    Eigen::VectorXd k(static_cast<Eigen::Index>(used_.size()));
    for (std::size_t i = 0; i < used_.size(); ++i) {
        const SampleReading& sample = samples_[used_[i]];
        k[static_cast<Eigen::Index>(i)] = kernel(seen, side, sample.seen, sample.sample.side, axis);
    }
    return k;
}

Lab LocalCorrection::correct(const Lab& seen, SampleSide side) const {
    if (used_.empty()) return seen;
    std::array<double, 3> by{};
    for (std::size_t axis = 0; axis < 3; ++axis)
        by[axis] = against(seen, side, axis).dot(inverse_[axis] * departure_[axis]);
    return {seen.L + by[0], seen.a + by[1], seen.b + by[2]};
}

std::array<Eigen::Matrix2d, 3> LocalCorrection::covariance(const Lab& original, const Lab& repair) const {
    constexpr SampleSide first = SampleSide::original, second = SampleSide::repair;
    std::array<Eigen::Matrix2d, 3> left;
    for (std::size_t axis = 0; axis < 3; ++axis) {
        const double variance = prior_.u[axis] * prior_.u[axis];
        const double both = kernel(original, first, repair, second, axis);
        left[axis] << variance, both, both, variance;
        if (used_.empty()) continue;
        Eigen::MatrixXd k(static_cast<Eigen::Index>(used_.size()), 2);
        k.col(0) = against(original, first, axis), k.col(1) = against(repair, second, axis);
        left[axis] -= k.transpose() * inverse_[axis] * k;
    }
    return left;
}

bool LocalCorrection::leave_out_worst() {
    const std::vector<std::size_t> all = used_;
    std::size_t worst = all.size();
    double most = most_deviations;
    for (std::size_t i = 0; i < all.size(); ++i) {
        std::vector<std::size_t> others = all;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
        use(others);
        SampleReading& sample = samples_[all[i]];
        // What is expected to be stated: the colour, with the instrument's error that the others have too.
        std::array<Eigen::VectorXd, 3> k, weights;
        std::array<double, 3> stated = axes(sample.seen);
        for (std::size_t axis = 0; axis < 3; ++axis) {
            k[axis] = against(sample.seen, sample.sample.side, axis).array() +
                      prior_.instrument * prior_.instrument;
            weights[axis] = inverse_[axis] * k[axis];
            stated[axis] += weights[axis].dot(departure_[axis]);
        }
        sample.expected = {stated[0], stated[1], stated[2]};
        if (ciede2000(sample.expected, sample.sample.lab).value < most_de2000) continue;
        for (std::size_t axis = 0; axis < 3; ++axis) {
            const double u = std::sqrt(prior_.u[axis] * prior_.u[axis] - k[axis].dot(weights[axis]) +
                                       sample.u[axis] * sample.u[axis]);
            const double off = std::abs(axes(sample.expected)[axis] - axes(sample.sample.lab)[axis]) / u;
            if (off > most) most = off, worst = i;
        }
    }
    use(all);
    if (worst == all.size()) return false;
    samples_[all[worst]].left_out = true;
    std::vector<std::size_t> others = all;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(worst));
    use(others);
    return true;
}

}  // namespace tonemend
