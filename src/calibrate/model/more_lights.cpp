#include "calibrate/model/more_lights.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "calibrate/model/difference_metric.h"
#include "colour/rgb_space.h"

namespace tonemend {
namespace {

Eigen::Vector3d straight_vector(const Vector3& working) {
    static const Matrix3 from_working = rgb_to_xyz_d50(romm_rgb);
    const Vector3 xyz = from_working * working;
    return {xyz[0], xyz[1], xyz[2]};
}

// The surface as it is seen when one channel, or with channel 3 every channel, is brighter by the share
// `error`.
KnownSurface brighter(KnownSurface surface, std::size_t light, std::size_t channel, double error) {
    for (std::size_t c = 0; c < 3; ++c)
        if (channel == 3 || c == channel) surface.seen[light][c] *= 1 + error;
    return surface;
}

KnownSurface under_first_lights(const KnownSurface& surface, std::size_t lights) {
    return {first_lights(surface.seen, lights), surface.xyz};
}

// Means over a surface's errors: of features times features, of what is missing from the straight colour
// times features, and of that squared.
struct SurfaceSums {
    Eigen::MatrixXd features;  // n × n
    Eigen::MatrixXd missing;   // 3 × n
    Eigen::Matrix3d square;

    explicit SurfaceSums(Eigen::Index n)
        : features(Eigen::MatrixXd::Zero(n, n)),
          missing(Eigen::MatrixXd::Zero(3, n)),
          square(Eigen::Matrix3d::Zero()) {}
    void add(const KnownSurface& surface, double share) {
        const Eigen::VectorXd f = tonemend::features(surface.seen);
        const Eigen::Vector3d left = Eigen::Vector3d{surface.xyz.X, surface.xyz.Y, surface.xyz.Z} -
                                     straight_vector(surface.seen.front());
        features += share * f * f.transpose();
        missing += share * left * f.transpose();
        square += share * left * left.transpose();
    }
};

// The surface with each light and channel wrong either way, so far that the equal parts have the noise's
// covariance.
SurfaceSums sums_of(const KnownSurface& surface, const LightNoises& noise) {
    const auto lights = surface.seen.size();
    SurfaceSums sums(static_cast<Eigen::Index>(feature_count(lights)));
    const double share = 1.0 / static_cast<double>(8 * lights),
                 reach = std::sqrt(4.0 * static_cast<double>(lights));
    for (std::size_t light = 0; light < lights; ++light)
        for (std::size_t channel = 0; channel <= 3; ++channel)
            for (const double sign : {-1.0, 1.0}) {
                const double error = reach * (channel == 3 ? noise[light].brightness : noise[light].channel);
                sums.add(brighter(surface, light, channel, sign * error), share);
            }
    return sums;
}

// Normal equations of the least squares in ΔE2000: theta is all of X, then Y, then Z.
struct Normal {
    Eigen::MatrixXd matrix;
    Eigen::VectorXd right;
    double target_square = 0;
    double weight = 0;

    explicit Normal(Eigen::Index size)
        : matrix(Eigen::MatrixXd::Zero(size, size)), right(Eigen::VectorXd::Zero(size)) {}
    void add(const KnownSurface& surface, const LightNoises& noise, double times) {
        const SurfaceSums sums = sums_of(surface, noise);
        const Eigen::Matrix3d metric = difference_metric(surface.xyz),
                              gram = times * metric.transpose() * metric;
        const Eigen::Index n = sums.features.rows();
        for (Eigen::Index i = 0; i < 3; ++i) {
            for (Eigen::Index j = 0; j < 3; ++j)
                matrix.block(i * n, j * n, n, n) += gram(i, j) * sums.features;
            right.segment(i * n, n) += (gram.row(i) * sums.missing).transpose();
        }
        target_square += (gram * sums.square).trace();
        weight += times;
    }
};

struct NearPair {
    std::size_t first, second;
    Eigen::Matrix3d metric;
    double distance;  // ΔE2000
};

// Each surface with the three that are nearest to it in colour.
std::vector<NearPair> near_pairs(const std::vector<KnownSurface>& surfaces) {
    std::vector<NearPair> pairs;
    for (std::size_t i = 0; i < surfaces.size(); ++i) {
        const Eigen::Matrix3d metric = difference_metric(surfaces[i].xyz);
        std::vector<NearPair> own;
        for (std::size_t j = 0; j < surfaces.size(); ++j) {
            if (j == i) continue;
            const XYZ &a = surfaces[i].xyz, &b = surfaces[j].xyz;
            own.push_back({i, j, metric, (metric * Eigen::Vector3d{b.X - a.X, b.Y - a.Y, b.Z - a.Z}).norm()});
        }
        const auto middle =
            own.begin() + std::min<std::ptrdiff_t>(3, static_cast<std::ptrdiff_t>(own.size()));
        std::partial_sort(own.begin(), middle, own.end(),
                          [](const NearPair& p, const NearPair& q) { return p.distance < q.distance; });
        pairs.insert(pairs.end(), own.begin(), middle);
    }
    return pairs;
}

Eigen::Vector3d miss_of(const ManyLightsModel& model, const KnownSurface& surface) {
    const XYZ told = model.to_xyz(first_lights(surface.seen, model.lights));
    return {told.X - surface.xyz.X, told.Y - surface.xyz.Y, told.Z - surface.xyz.Z};
}

}  // namespace

SeenUnderLights first_lights(const SeenUnderLights& seen, std::size_t lights) {
    return {seen.begin(), seen.begin() + static_cast<std::ptrdiff_t>(lights)};
}

std::size_t feature_count(std::size_t lights) {
    return 2 + 3 * (lights - 1);
}

Eigen::VectorXd features(const SeenUnderLights& seen) {
    Eigen::VectorXd f(static_cast<Eigen::Index>(feature_count(seen.size())));
    const Vector3& first = seen.front();
    f[0] = first[0] - first[1];
    f[1] = first[2] - first[1];
    Eigen::Index at = 2;
    for (std::size_t light = 1; light < seen.size(); ++light)
        for (std::size_t c = 0; c < 3; ++c) f[at++] = seen[light][c] - first[c];
    return f;
}

XYZ ManyLightsModel::to_xyz(const SeenUnderLights& seen) const {
    const Eigen::VectorXd f = features(seen);
    const Eigen::Index n = f.size();
    Eigen::Vector3d xyz = straight_vector(seen.front());
    for (Eigen::Index out = 0; out < 3; ++out) xyz[out] += theta.segment(out * n, n).dot(f);
    return {xyz[0], xyz[1], xyz[2]};
}

ManyLightsPrior learn_many_lights(const std::vector<std::vector<KnownSurface>>& cameras, std::size_t lights,
                                  const LightNoises& noise) {
    const auto size = static_cast<Eigen::Index>(3 * feature_count(lights));
    Eigen::MatrixXd thetas(size, static_cast<Eigen::Index>(cameras.size()));
    double residual = 0, missed = 0, apart = 0;
    const std::vector<NearPair> pairs = near_pairs(cameras.front());
    for (std::size_t camera = 0; camera < cameras.size(); ++camera) {
        Normal normal(size);
        for (const KnownSurface& surface : cameras[camera])
            normal.add(under_first_lights(surface, lights), noise, 1);
        const Eigen::VectorXd theta = normal.matrix.ldlt().solve(normal.right);
        const double left = normal.target_square - theta.dot(normal.right);
        residual += left / (3 * normal.weight) / static_cast<double>(cameras.size());
        thetas.col(static_cast<Eigen::Index>(camera)) = theta;
        const ManyLightsModel model{lights, theta};
        for (const NearPair& pair : pairs) {
            const Eigen::Vector3d miss =
                miss_of(model, cameras[camera][pair.second]) - miss_of(model, cameras[camera][pair.first]);
            missed += (pair.metric * miss).squaredNorm() / 3;
            apart += pair.distance * pair.distance;
        }
    }
    ManyLightsPrior prior;
    prior.lights = lights;
    prior.mean = thetas.rowwise().mean();
    const Eigen::MatrixXd centred = thetas.colwise() - prior.mean;
    prior.covariance = centred * centred.transpose() / static_cast<double>(cameras.size() - 1);
    prior.residual = std::sqrt(residual);
    prior.contrast = std::sqrt(missed / apart);
    return prior;
}

ManyLightsFit fit_many_lights(const ManyLightsPrior& prior, const std::vector<KnownSurface>& known,
                              const LightNoises& noise) {
    const Eigen::Index size = prior.mean.size();
    const Eigen::MatrixXd identity = Eigen::MatrixXd::Identity(size, size);
    // A little on the diagonal: fewer cameras than numbers leave directions without any spread.
    const double floor = 1e-9 * prior.covariance.trace();
    const Eigen::MatrixXd precision = (prior.covariance + floor * identity).ldlt().solve(identity);
    Normal normal(size);
    const double weight = 1 / (prior.residual * prior.residual);
    for (const KnownSurface& surface : known)
        normal.add(under_first_lights(surface, prior.lights), noise, weight);
    ManyLightsFit fit;
    fit.covariance = (precision + normal.matrix).ldlt().solve(identity);
    fit.model = {prior.lights, fit.covariance * (precision * prior.mean + normal.right)};
    fit.residual = prior.residual;
    fit.contrast = prior.contrast;
    return fit;
}

}  // namespace tonemend
