#include "calibrate/model/more_lights.h"

#include <Eigen/Dense>
#include <cmath>

#include "colour/difference.h"
#include "practice/light_ensemble.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

XYZ scaled(const XYZ& xyz, double times) {
    return {times * xyz.X, times * xyz.Y, times * xyz.Z};
}

ManyLightsModel some_model() {
    ManyLightsModel model;
    model.lights = 2;
    model.theta = Eigen::VectorXd::LinSpaced(15, -0.4, 0.5);
    return model;
}

}  // namespace

TEST_CASE("Under many lights a grey keeps its colour, whatever the coefficients") {
    for (const double grey : {0.03, 0.2, 0.9}) {
        const XYZ xyz = some_model().to_xyz({{grey, grey, grey}, {grey, grey, grey}});
        CHECK(std::abs(xyz.X - grey * d50_icc.X) < 1e-4);  // the digits of the ICC's D50
        CHECK(std::abs(xyz.Y - grey) < 1e-4);
        CHECK(std::abs(xyz.Z - grey * d50_icc.Z) < 1e-4);
    }
}

TEST_CASE("Twice the light is twice the colour under many lights too") {
    const XYZ once = some_model().to_xyz({{0.3, 0.2, 0.1}, {0.35, 0.2, 0.08}});
    const XYZ twice = some_model().to_xyz({{0.6, 0.4, 0.2}, {0.7, 0.4, 0.16}});
    const XYZ expected = scaled(once, 2);
    CHECK(std::abs(twice.X - expected.X) < 1e-12);
    CHECK(std::abs(twice.Y - expected.Y) < 1e-12);
    CHECK(std::abs(twice.Z - expected.Z) < 1e-12);
}

TEST_CASE("Without a known surface the fit under many lights is what cameras in general do") {
    const auto ensemble = camera_ensemble({"CIE-D65", "CIE-A"});
    const ManyLightsPrior prior = learn_many_lights(ensemble, 2, {{0.003, 0}, {0.003, 0}});
    const ManyLightsFit fit = fit_many_lights(prior, {}, {{0.003, 0}, {0.003, 0}});
    CHECK((fit.model.theta - prior.mean).norm() < 1e-6 * prior.mean.norm());
    CHECK((fit.covariance - prior.covariance).norm() < 1e-4 * prior.covariance.norm());
}

TEST_CASE("Known surfaces narrow what is known of the camera, each more a little") {
    const auto ensemble = camera_ensemble({"CIE-D65", "CIE-A"});
    const LightNoises noise(2, {0.003, 0});
    const ManyLightsPrior prior = learn_many_lights(ensemble, 2, noise);
    double last = fit_many_lights(prior, {}, noise).covariance.trace();
    std::vector<KnownSurface> known;
    for (const std::size_t surface : {0, 40, 80, 120}) {
        known.push_back(ensemble.front()[surface]);
        const double trace = fit_many_lights(prior, known, noise).covariance.trace();
        CHECK(trace < last);
        last = trace;
    }
}

TEST_CASE("With a wide prior and no noise the fit under many lights is plain least squares") {
    // The second solution is Eigen's QR on the same rows in XYZ: where the fit is exact, no metric matters.
    const auto ensemble = camera_ensemble({"CIE-D65", "CIE-A"});
    std::vector<KnownSurface> known(ensemble[3].begin(), ensemble[3].begin() + 40);
    const ManyLightsModel truth = some_model();
    for (KnownSurface& surface : known) surface.xyz = truth.to_xyz(surface.seen);
    ManyLightsPrior wide;
    wide.lights = 2;
    wide.mean = Eigen::VectorXd::Zero(15);
    wide.covariance = 1e4 * Eigen::MatrixXd::Identity(15, 15);
    wide.residual = 0.01;
    const ManyLightsFit fit = fit_many_lights(wide, known, {{}, {}});
    CHECK((fit.model.theta - truth.theta).norm() < 1e-3);
}

TEST_CASE("Six known woods under daylight and lamplight tell a camera's colours better than daylight alone",
          "[many-lights]") {
    // ACCURACY of the method is judged by shown studies on pictures; here the arithmetic alone, at 0.3 %
    // light noise.
    const std::vector<std::string> names{"CIE-D65", "CIE-A"};
    const auto ensemble = camera_ensemble(names);
    const std::vector<Lamp> lamps{make_lamp(names[0]), make_lamp(names[1])};
    const auto patches = draw_stained_woods(99, 6), woods = draw_stained_woods(100, 60);
    double squares[2] = {0, 0};
    for (const std::size_t lights : {std::size_t{1}, std::size_t{2}}) {
        const LightNoises noise(lights, {0.003, 0});
        const ManyLightsPrior prior = learn_many_lights(ensemble, lights, noise);
        for (std::uint64_t camera = 0; camera < 12; ++camera) {
            const ViewUnderLamps view(make_camera(camera), lamps);
            std::vector<KnownSurface> known;
            for (const Bands& patch : patches) known.push_back(view.of(patch));
            const ManyLightsFit fit = fit_many_lights(prior, known, noise);
            for (const Bands& wood : woods) {
                KnownSurface surface = view.of(wood);
                surface.seen.resize(lights);
                const double miss =
                    ciede2000(to_lab(surface.xyz, d50_icc), to_lab(fit.model.to_xyz(surface.seen), d50_icc))
                        .value;
                squares[lights - 1] += miss * miss;
            }
        }
    }
    const double gain = std::sqrt(squares[0] / squares[1]);
    INFO("the error falls " << gain << " times");
    CHECK(gain > 2);
    CHECK(gain < 8);
}
TEST_CASE("A second and a third light leave less of a change of colourant untold") {
    // The practice bench's own cameras; no outside source.
    const std::vector<std::string> names{"CIE-D65", "led:4000", "CIE-A"};
    const auto ensemble = camera_ensemble(names);
    double last = 0.1;
    for (std::size_t lights = 1; lights <= 3; ++lights) {
        const double contrast = learn_many_lights(ensemble, lights, LightNoises(lights, {0.003, 0})).contrast;
        INFO(lights << " lights: " << contrast);
        CHECK(contrast < 0.6 * last);
        CHECK(contrast > 0.1 * last);
        last = contrast;
    }
}
