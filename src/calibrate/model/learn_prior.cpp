#include "calibrate/model/learn_prior.h"

#include <Eigen/Dense>
#include <cmath>
#include <functional>
#include <utility>

#include "calibrate/model/difference_metric.h"
#include "colour/lab.h"
#include "colour/rgb_space.h"

namespace tonemend {
namespace {

constexpr double channel_noise = 0.003;
// Of the square of a difference's error next to that of a colour's: differences are what is compared.
constexpr double difference_weight = 4;

Eigen::Vector3d lab_error(const ColourModel& model, const SeenSurface& surface) {
    const Lab seen = to_lab(model.from_working.of(surface.working), d50_icc);
    const Lab truth = to_lab(surface.xyz, d50_icc);
    return {seen.L - truth.L, seen.a - truth.a, seen.b - truth.b};
}

// The camera's own matrix alone.
ColourModel straight_model() {
    return ColourModel::of_matrix(rgb_to_xyz_d50(romm_rgb));
}

// Sums of the least squares in ΔE2000.
class NormalEquations {
  public:
    // `target` picks the colour that theta leads to from a surface.
    NormalEquations(ModelForm form, std::function<XYZ(const SeenSurface&)> target)
        : form_(form),
          target_(std::move(target)),
          matrix_(Eigen::MatrixXd::Zero(3 * term_count(form), 3 * term_count(form))),
          right_(Eigen::VectorXd::Zero(3 * term_count(form))) {}

    // A colour, with noise in each channel.
    void add_wood(const SeenSurface& wood) {
        const Eigen::Matrix3d metric = difference_metric(wood.xyz);
        for (std::size_t c = 0; c < 3; ++c)
            for (const double sign : {-1.0, 1.0}) {
                Vector3 seen = wood.working;
                seen[c] *= 1 + sign * std::sqrt(3.0) * channel_noise;
                add(metric, departure_terms(form_, seen), miss(seen, target_(wood)), 1.0 / 6);
            }
    }
    // A difference of two colours.
    void add_pair(const SeenPair& pair, double weight) {
        add(difference_metric(pair.original.xyz),
            departure_terms(form_, pair.repair.working) - departure_terms(form_, pair.original.working),
            miss(pair.repair.working, target_(pair.repair)) -
                miss(pair.original.working, target_(pair.original)),
            weight);
    }
    Eigen::VectorXd solve() const { return matrix_.ldlt().solve(right_); }

  private:
    static Eigen::Vector3d miss(const Vector3& working, const XYZ& truth) {
        static const ColourModel straight = straight_model();
        const XYZ from = straight.from_working.of(working);
        return {truth.X - from.X, truth.Y - from.Y, truth.Z - from.Z};
    }
    void add(const Eigen::Matrix3d& metric, const Eigen::VectorXd& f, const Eigen::Vector3d& target,
             double weight) {
        const Eigen::Index n = f.size();
        const Eigen::Matrix3d gram = weight * metric.transpose() * metric;
        const Eigen::Vector3d pulled = gram * target;
        for (Eigen::Index i = 0; i < 3; ++i) {
            for (Eigen::Index j = 0; j < 3; ++j)
                matrix_.block(i * n, j * n, n, n) += gram(i, j) * f * f.transpose();
            right_.segment(i * n, n) += pulled[i] * f;
        }
    }

    ModelForm form_;
    std::function<XYZ(const SeenSurface&)> target_;
    Eigen::MatrixXd matrix_;
    Eigen::VectorXd right_;
};

Eigen::VectorXd own_theta(const CameraSight& camera, ModelForm form,
                          std::function<XYZ(const SeenSurface&)> target) {
    NormalEquations equations(form, std::move(target));
    for (const SeenSurface& wood : camera.woods) equations.add_wood(wood);
    for (const auto& kind : camera.pairs)
        for (const SeenPair& pair : kind) equations.add_pair(pair, difference_weight);
    return equations.solve();
}

// The nearest matrix without negative variances.
Eigen::Matrix3d without_negative(const Eigen::Matrix3d& covariance) {
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(covariance);
    return solver.eigenvectors() * solver.eigenvalues().cwiseMax(0).asDiagonal() *
           solver.eigenvectors().transpose();
}

// Least squares of e·eᵀ over 1 and d², large distances weighed down.
class ScatterFit {
  public:
    void add(const Eigen::Vector3d& error, double distance) {
        const double weight = 1 / ((1 + distance * distance) * (1 + distance * distance));
        const Eigen::Vector2d basis{1, distance * distance};
        normal_ += weight * basis * basis.transpose();
        for (Eigen::Index k = 0; k < 2; ++k)
            right_[static_cast<std::size_t>(k)] += weight * basis[k] * error * error.transpose();
    }
    DifferenceScatter result() const {
        const Eigen::Matrix2d inverse = normal_.inverse();
        return {without_negative(inverse(0, 0) * right_[0] + inverse(0, 1) * right_[1]),
                without_negative(inverse(1, 0) * right_[0] + inverse(1, 1) * right_[1])};
    }

  private:
    Eigen::Matrix2d normal_ = Eigen::Matrix2d::Zero();
    std::array<Eigen::Matrix3d, 2> right_{Eigen::Matrix3d::Zero(), Eigen::Matrix3d::Zero()};
};

double lab_distance(const SeenPair& pair) {
    const Lab o = to_lab(pair.original.xyz, d50_icc), r = to_lab(pair.repair.xyz, d50_icc);
    return std::hypot(r.L - o.L, r.a - o.a, r.b - o.b);
}

std::vector<SeenSurface> woods_of(const std::vector<SeenPair>& pairs) {
    std::vector<SeenSurface> woods;
    for (const SeenPair& pair : pairs) woods.insert(woods.end(), {pair.original, pair.repair});
    return woods;
}

Eigen::Matrix3d mean_square(const std::vector<SeenSurface>& surfaces, const ColourModel& model) {
    Eigen::Matrix3d sum = Eigen::Matrix3d::Zero();
    for (const SeenSurface& surface : surfaces) {
        const Eigen::Vector3d error = lab_error(model, surface);
        sum += error * error.transpose();
    }
    return sum / static_cast<double>(surfaces.size());
}

}  // namespace

FormPrior learn_form(const std::vector<CameraSight>& cameras, ModelForm form) {
    const auto count = static_cast<double>(cameras.size());
    Eigen::MatrixXd thetas(3 * term_count(form), static_cast<Eigen::Index>(cameras.size()));
    std::array<Eigen::MatrixXd, stated_for_count> shown;
    shown.fill(thetas);
    FormPrior prior;
    prior.residual.fill(Eigen::Matrix3d::Zero());
    std::array<ScatterFit, repair_colourants_count> scatter;
    for (std::size_t i = 0; i < cameras.size(); ++i) {
        const CameraSight& camera = cameras[i];
        const Eigen::VectorXd theta =
            own_theta(camera, form, [](const auto& surface) { return surface.xyz; });
        thetas.col(static_cast<Eigen::Index>(i)) = theta;
        for (std::size_t k = 0; k < stated_for_count; ++k)
            shown[k].col(static_cast<Eigen::Index>(i)) =
                own_theta(camera, form, [k](const auto& surface) { return surface.stated[k]; });
        const ColourModel model = changed(straight_model(), change_of(form, theta));
        prior.residual_other += mean_square(camera.others, model) / count;
        for (std::size_t kind = 0; kind < repair_colourants_count; ++kind) {
            prior.residual[kind] += mean_square(woods_of(camera.pairs[kind]), model) / count;
            for (const SeenPair& pair : camera.pairs[kind])
                scatter[kind].add(lab_error(model, pair.repair) - lab_error(model, pair.original),
                                  lab_distance(pair));
        }
    }
    for (std::size_t kind = 0; kind < repair_colourants_count; ++kind)
        prior.difference[kind] = scatter[kind].result();
    prior.mean = thetas.rowwise().mean();
    const Eigen::MatrixXd centred = thetas.colwise() - prior.mean;
    prior.covariance = centred * centred.transpose() / (count - 1);
    for (std::size_t k = 0; k < stated_for_count; ++k) {
        StatedPrior& stated = prior.stated[k];
        stated.mean = shown[k].rowwise().mean();
        const Eigen::MatrixXd apart = shown[k].colwise() - stated.mean;
        stated.covariance = apart * apart.transpose() / (count - 1);
        stated.cross = centred * apart.transpose() / (count - 1);
    }
    return prior;
}

}  // namespace tonemend
