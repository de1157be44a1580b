#include "calibrate/flat/surface_fit.h"

#include <algorithm>
#include <cmath>

#include "calibrate/flat/light_surface.h"

namespace tonemend {
namespace {

// Of a term of each order, as the logarithm of light: what lamps a metre or two away do (common practice, no
// source).
constexpr std::array<double, most_surface_degree> usual_terms{0.2, 0.05, 0.01, 0.003, 0.001, 0.0005};
constexpr double open_prior = 100;     // times as much
constexpr double material_prior = 10;  // nothing is known of a material's reflectance
constexpr double place_u = 0.003;  // of a card laid down again, a little tilted (common practice, no source)
constexpr int huber_rounds = 4, tukey_rounds = 6;
constexpr double huber_limit = 1.345, tukey_limit = 4.685;

struct Layout {
    Eigen::Index terms = 0, materials = 0, places = 0;
    Eigen::Index count() const { return terms + materials + places; }
};

struct System {
    Layout layout;
    Eigen::MatrixXd design;  // a row a sample
    Eigen::MatrixXd log_light;
    Eigen::VectorXd precision;  // of the prior, a number a column
};

System lay_out(const std::vector<LogSample>& samples, const SurfaceTerms& surface, SurfacePrior prior) {
    System system;
    int materials = 0, pictures = 0;
    for (const LogSample& sample : samples) {
        materials = std::max(materials, sample.material + 1);
        pictures = std::max(pictures, sample.picture + 1);
    }
    Layout& layout = system.layout;
    layout.terms = static_cast<Eigen::Index>(surface.count());
    layout.materials = materials;
    layout.places = pictures > 1 ? pictures : 0;
    const auto rows = static_cast<Eigen::Index>(samples.size());
    system.design = Eigen::MatrixXd::Zero(rows, layout.count());
    system.log_light.resize(rows, 3);
    for (Eigen::Index row = 0; row < rows; ++row) {
        const LogSample& sample = samples[static_cast<std::size_t>(row)];
        const std::vector<double> values = surface.at(sample.at);
        for (Eigen::Index i = 0; i < layout.terms; ++i)
            system.design(row, i) = values[static_cast<std::size_t>(i)];
        system.design(row, layout.terms + sample.material) = 1;
        if (layout.places > 0) system.design(row, layout.terms + layout.materials + sample.picture) = 1;
        for (Eigen::Index c = 0; c < 3; ++c)
            system.log_light(row, c) = sample.log_light[static_cast<std::size_t>(c)];
    }
    system.precision.resize(layout.count());
    const std::vector<int> orders = surface.orders();
    for (Eigen::Index i = 0; i < layout.terms; ++i) {
        const double usual = usual_terms[static_cast<std::size_t>(orders[static_cast<std::size_t>(i)] - 1)];
        system.precision[i] = std::pow(prior == SurfacePrior::open ? open_prior * usual : usual, -2);
    }
    system.precision.segment(layout.terms, layout.materials).setConstant(std::pow(material_prior, -2));
    system.precision.tail(layout.places).setConstant(std::pow(place_u, -2));
    return system;
}

double median(std::vector<double> values) {
    if (values.empty()) return 0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

// How far a sample is off in units of its own u: its worst channel.
double distance(const Eigen::MatrixXd& left, Eigen::Index row, double u) {
    return left.row(row).cwiseAbs().maxCoeff() / u;
}

double weight_of(double distance, bool last_rounds) {
    if (!last_rounds) return distance <= huber_limit ? 1.0 : huber_limit / distance;
    if (distance >= tukey_limit) return 0;
    const double rest = 1 - std::pow(distance / tukey_limit, 2);
    return rest * rest;
}

}  // namespace

SurfaceFit fit_surface(const std::vector<LogSample>& samples, int width, int height, int degree,
                       SurfacePrior prior, const std::vector<bool>& held_out) {
    const System system = lay_out(samples, SurfaceTerms(width, height, degree), prior);
    const auto counts = [&](std::size_t i) { return held_out.empty() || !held_out[i]; };
    SurfaceFit fit;
    fit.weights.resize(samples.size());
    for (std::size_t i = 0; i < samples.size(); ++i) fit.weights[i] = counts(i) ? 1.0 : 0.0;
    Eigen::MatrixXd solution, left;
    Eigen::LLT<Eigen::MatrixXd> normal;
    for (int round = 0; round < huber_rounds + tukey_rounds; ++round) {
        Eigen::VectorXd weights(static_cast<Eigen::Index>(samples.size()));
        for (std::size_t i = 0; i < samples.size(); ++i)
            weights[static_cast<Eigen::Index>(i)] = fit.weights[i] / (samples[i].u * samples[i].u);
        Eigen::MatrixXd sums = system.design.transpose() * weights.asDiagonal() * system.design;
        sums += system.precision.asDiagonal();
        normal.compute(sums);
        solution = normal.solve(system.design.transpose() * weights.asDiagonal() * system.log_light);
        left = system.log_light - system.design * solution;
        std::vector<double> distances;
        for (std::size_t i = 0; i < samples.size(); ++i)
            if (counts(i)) distances.push_back(distance(left, static_cast<Eigen::Index>(i), samples[i].u));
        // The worst of three channels that err together or apart: between 0.67 and 1.2 deviations at the
        // median. Never under 0.3, or a noiseless picture would be judged by its rounding.
        fit.scale = std::max(0.3, median(distances) / 0.8);
        for (std::size_t i = 0; i < samples.size(); ++i)
            if (counts(i))
                fit.weights[i] =
                    weight_of(distance(left, static_cast<Eigen::Index>(i), samples[i].u) / fit.scale,
                              round + 1 >= huber_rounds);
    }
    const Eigen::MatrixXd covariance =
        std::max(1.0, fit.scale * fit.scale) *
        normal.solve(Eigen::MatrixXd::Identity(system.layout.count(), system.layout.count()));
    for (Eigen::Index i = 0; i < system.layout.terms; ++i)
        for (Eigen::Index j = 0; j <= i; ++j) fit.doubt.push_back(covariance(i, j));
    for (std::size_t c = 0; c < 3; ++c) {
        const auto column = solution.col(static_cast<Eigen::Index>(c));
        fit.terms[c].assign(column.begin(), column.begin() + system.layout.terms);
        fit.materials[c].assign(column.begin() + system.layout.terms,
                                column.begin() + system.layout.terms + system.layout.materials);
    }
    for (Eigen::Index row = 0; row < left.rows(); ++row)
        fit.left.push_back({left(row, 0), left(row, 1), left(row, 2)});
    return fit;
}

}  // namespace tonemend
