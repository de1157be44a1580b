#include "measure/finish_on.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <Eigen/Dense>

#include "colour/difference.h"
#include "measure/estimated_reflectance.h"
#include "measure/film.h"
#include "measure/normal_draws.h"

namespace tonemend {
namespace {

// What is believed of a film, and learnt of it: k2, wetting, tint, haze, then what this wood and finish have
// in common beside in L*, a* and b*.
constexpr int unknowns = 7;
using Belief = Eigen::Matrix<double, unknowns, 1>;
using Spread = Eigen::Matrix<double, unknowns, unknowns>;

struct FilmPrior {
    double k1 = usual_k1;
    Belief mean, spread;
    double between_boards = 0.35;  // what one board differs by from the next, CIELAB, standard deviation
};

// Densities at 400 nm as varnishes and lacquers have them, haze as a share of what a surface mirrors: common
// practice, no source.
FilmPrior prior_of(const FinishFacts& facts) {
    FilmPrior prior;
    constexpr double beside = 0.35;  // what the model leaves out, CIELAB
    if (facts.look == FinishLook::wet) {
        // Mineral spirits, refractive index about 1.43 (from memory): k1 and k2 by Fresnel's equations.
        prior.k1 = 0.0313;
        prior.between_boards = 0.5;  // a thinner wets one place more than the other
        prior.mean << 0.55, 0.25, 0, 0, 0, 0, 0;
        prior.spread << 0.02, 0.09, 0.003, 0.001, beside, beside, beside;
        return prior;
    }
    const auto tint = static_cast<std::size_t>(facts.tint), sheen = static_cast<std::size_t>(facts.sheen);
    constexpr std::array tints{0.005, 0.04, 0.12}, tint_spreads{0.005, 0.018, 0.045};
    constexpr std::array hazes{0.0, 0.004, 0.01}, haze_spreads{0.0005, 0.0015, 0.003};
    prior.mean << usual_k2, 0.1, tints[tint], hazes[sheen], 0, 0, 0;
    prior.spread << 0.02, 0.08, tint_spreads[tint], haze_spreads[sheen], beside, beside, beside;
    return prior;
}

// The tint falls by 1/e every 60 nm from 400 nm on: yellowed resins' absorption has a tail like that (common
// practice, no source).
double tint_at(double nm) {
    return std::exp((400 - nm) / 60);
}

Eigen::Vector3d finished_colour(const EstimatedReflectance& bare, double k1, const Belief& film) {
    const double k2 = std::clamp(film[0], 0.2, 0.8), density = std::max(0.0, film[2]);
    const Lab lab = bare.lab_after([&](double reflectance, double nm) {
        return through_film(reflectance, {k1, k2, film[1], density * tint_at(nm), film[3]});
    });
    return {lab.L + film[4], lab.a + film[5], lab.b + film[6]};
}

using Slope = Eigen::Matrix<double, 3, unknowns>;

Slope slope_by_film(const EstimatedReflectance& bare, double k1, const Belief& film, const Belief& spread) {
    Slope slope;
    for (int i = 0; i < unknowns; ++i) {
        const double step = 0.1 * spread[i];
        Belief more = film, less = film;
        more[i] += step, less[i] -= step;
        slope.col(i) = (finished_colour(bare, k1, more) - finished_colour(bare, k1, less)) / (2 * step);
    }
    return slope;
}

Eigen::Matrix3d slope_by_bare(const Lab& bare, double k1, const Belief& film) {
    constexpr double step = 0.1;
    Eigen::Matrix3d slope;
    const auto moved = [&](int axis, double by) {
        Lab lab = bare;
        (axis == 0 ? lab.L : axis == 1 ? lab.a : lab.b) += by;
        return finished_colour(EstimatedReflectance(lab), k1, film);
    };
    for (int axis = 0; axis < 3; ++axis)
        slope.col(axis) = (moved(axis, step) - moved(axis, -step)) / (2 * step);
    return slope;
}

Eigen::Matrix3d variance_of(const std::array<double, 3>& u95) {
    const auto square = [](double u) { return (u / 1.96) * (u / 1.96); };
    return Eigen::Vector3d(square(u95[0]), square(u95[1]), square(u95[2])).asDiagonal();
}

// What a board's finished colour differs by for reasons that no film explains.
Eigen::Matrix3d own_variance(const Lab& bare, const std::array<double, 3>& bare_u95, const FilmPrior& prior,
                             const Belief& film) {
    const Eigen::Matrix3d slope = slope_by_bare(bare, prior.k1, film);
    return slope * variance_of(bare_u95) * slope.transpose() +
           prior.between_boards * prior.between_boards * Eigen::Matrix3d::Identity();
}

struct LearntFilm {
    Belief mean;
    Spread covariance;
};

// Gauss and Newton's steps on the logarithm of the probability.
LearntFilm learn(const FilmPrior& prior, std::span<const FinishPair> pairs) {
    const Spread prior_weight = prior.spread.array().square().inverse().matrix().asDiagonal();
    LearntFilm film{prior.mean, prior.spread.array().square().matrix().asDiagonal()};
    constexpr int steps = 6;
    for (int step = 0; step < steps && !pairs.empty(); ++step) {
        Spread weight = prior_weight;
        Belief pull = prior_weight * (prior.mean - film.mean);
        for (const FinishPair& pair : pairs) {
            const EstimatedReflectance bare(pair.bare);
            const Slope slope = slope_by_film(bare, prior.k1, film.mean, prior.spread);
            const Eigen::Vector3d miss = Eigen::Vector3d(pair.finished.L, pair.finished.a, pair.finished.b) -
                                         finished_colour(bare, prior.k1, film.mean);
            // The noise is taken at the prior's film, so that it does not depend on what is learnt.
            const Eigen::Matrix3d noise =
                own_variance(pair.bare, pair.bare_u95, prior, prior.mean) + variance_of(pair.finished_u95);
            Eigen::Matrix3d sure = noise.inverse();
            // A pair that was misread, or of another finish, must not pull the others.
            constexpr double far = 3;
            const double distance = std::sqrt(miss.dot(sure * miss) / 3);
            if (pairs.size() > 1 && distance > far) sure *= far / distance;
            weight += slope.transpose() * sure * slope;
            pull += slope.transpose() * sure * miss;
        }
        film.covariance = weight.inverse();
        film.mean += film.covariance * pull;
    }
    return film;
}

}  // namespace

struct FinishModel::Learnt {
    FilmPrior prior;
    LearntFilm film;
};

FinishModel::FinishModel(const FinishFacts& facts, std::span<const FinishPair> pairs)
    : pairs_(static_cast<int>(pairs.size())) {
    const FilmPrior prior = prior_of(facts);
    learnt_ = std::make_shared<const Learnt>(Learnt{prior, learn(prior, pairs)});
}

Lab FinishModel::finished(const Lab& bare) const {
    const Eigen::Vector3d lab =
        finished_colour(EstimatedReflectance(bare), learnt_->prior.k1, learnt_->film.mean);
    return {lab[0], lab[1], lab[2]};
}

FinishForecast FinishModel::foretell(const Lab& bare, const std::array<double, 3>& bare_u95) const {
    const auto& [prior, film] = *learnt_;
    const EstimatedReflectance reflectance(bare);
    const Slope slope = slope_by_film(reflectance, prior.k1, film.mean, prior.spread);
    const Eigen::Matrix3d covariance =
        slope * film.covariance * slope.transpose() + own_variance(bare, bare_u95, prior, film.mean);
    const Eigen::Vector3d middle = finished_colour(reflectance, prior.k1, film.mean);
    FinishForecast forecast;
    forecast.lab = {middle[0], middle[1], middle[2]};
    forecast.pairs = pairs_;
    for (int axis = 0; axis < 3; ++axis)
        forecast.u95[static_cast<std::size_t>(axis)] = 1.96 * std::sqrt(covariance(axis, axis));
    const Eigen::Matrix3d root = covariance.llt().matrixL();
    NormalDraws normal(19420801);
    constexpr int draws = 500;
    std::vector<double> away;
    for (int i = 0; i < draws; ++i) {
        const Eigen::Vector3d one = middle + root * Eigen::Vector3d(normal(), normal(), normal());
        away.push_back(ciede2000(forecast.lab, {one[0], one[1], one[2]}).value);
    }
    std::sort(away.begin(), away.end());
    forecast.de2000_u95 = away[static_cast<std::size_t>(0.95 * draws)];
    return forecast;
}

}  // namespace tonemend
