#include "practice/camera.h"

#include <cmath>

#include "calibrate/model/reference_spectra.h"
#include "colour/difference.h"
#include "colour/rgb_space.h"
#include "practice/camera_curve.h"
#include "practice/camera_matrix.h"
#include "practice/recipe.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

constexpr std::uint64_t cameras = 24;

double peak_nm(const Bands& channel) {
    return band_nm(
        static_cast<std::size_t>(std::max_element(channel.begin(), channel.end()) - channel.begin()));
}

// Share of a colour-matching function that no mixture of the three sensitivities reaches: 0 for a camera that
// sees as the eye does (Luther's condition). Gram–Schmidt.
double unreached(const PracticeCamera& camera, const Bands& target) {
    std::array<Bands, 3> basis = camera.sensitivity;
    Bands rest = target;
    for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t j = 0; j < k; ++j) {
            const double along = inner_product(basis[k], basis[j]);
            for (std::size_t i = 0; i < band_count; ++i) basis[k][i] -= along * basis[j][i];
        }
        const double length = std::sqrt(inner_product(basis[k], basis[k]));
        for (double& value : basis[k]) value /= length;
        const double along = inner_product(rest, basis[k]);
        for (std::size_t i = 0; i < band_count; ++i) rest[i] -= along * basis[k][i];
    }
    return std::sqrt(inner_product(rest, rest) / inner_product(target, target));
}

}  // namespace

TEST_CASE("Cameras peak where ordinary cameras do and none sees as the eye does") {
    const Bands y = sample_bands(read_observer_1931().y);
    double least = 1;
    double most = 0;
    for (std::uint64_t number = 0; number < cameras; ++number) {
        const PracticeCamera camera = make_camera(number);
        INFO("camera " << number);
        CHECK(std::abs(peak_nm(camera.sensitivity[0]) - 600) <= 15);
        CHECK(std::abs(peak_nm(camera.sensitivity[1]) - 535) <= 15);
        CHECK(std::abs(peak_nm(camera.sensitivity[2]) - 460) <= 15);
        const double missing = unreached(camera, y);
        least = std::min(least, missing);
        most = std::max(most, missing);
    }
    std::printf("  share of y-bar out of reach: %.3f to %.3f\n", least, most);
    CHECK(least > 0.05);
    CHECK(most < 0.4);
}

TEST_CASE("The maker's matrix keeps white white and its rows sum to 1") {
    for (std::uint64_t number = 0; number < cameras; ++number) {
        const PracticeCamera camera = make_camera(number);
        for (const auto& row : camera.to_srgb.m) CHECK(row[0] + row[1] + row[2] == Approx(1).epsilon(1e-12));
        const CameraView view = look_at(camera, make_lamp("CIE-A"), WhiteBalance::automatic);
        const Vector3 white = view.output_matrix() * view.white;
        for (const double channel : white) CHECK(channel == Approx(1).epsilon(1e-12));
    }
}

TEST_CASE("A camera balanced for daylight shows a warm lamp warm") {
    const CameraView view = look_at(make_camera(3), make_lamp("CIE-A"), WhiteBalance::daylight);
    const Vector3 white = view.output_matrix() * view.white;
    CHECK(white[0] == Approx(1).epsilon(1e-12));
    CHECK(white[2] < 0.5);
    CHECK(white[1] < 0.95);
}

// Bounds from our own run, no published source. Measured cameras are worse on real wood: 95th percentile 1.8.
TEST_CASE("In-camera sRGB holds every wood without clipping, and is off by less than a mark of dE2000") {
    const Lamp lamp = make_lamp("CIE-D65");
    std::vector<double> errors;
    double lowest = 1;
    double highest = 0;
    for (std::uint64_t number = 0; number < cameras; ++number) {
        const CameraView view = look_at(make_camera(number), lamp, WhiteBalance::automatic);
        const Matrix3 output = view.output_matrix();
        for (const WoodKind& wood : wood_kinds())
            for (const Finish finish : {Finish::raw, Finish::clear_coat})
                for (const double darkness : {-0.25, 0.0, 1.0, 1.25}) {
                    const Bands reflectance = stained_reflectance(wood, {{}, finish, {}}, darkness);
                    const Vector3 rgb = output * view.raw(reflectance);
                    lowest = std::min({lowest, rgb[0], rgb[1], rgb[2]});
                    highest = std::max({highest, rgb[0], rgb[1], rgb[2]});
                    const Vector3 xyz = rgb_to_xyz_d50(srgb) * rgb;
                    errors.push_back(
                        ciede2000(lamp.lab(reflectance), to_lab({xyz[0], xyz[1], xyz[2]}, d50_icc)).value);
                }
    }
    std::printf(
        "  bare and finished wood, linear sRGB %.3f to %.3f; error median %.2f, 95th percentile %.2f\n",
        lowest, highest, quantile(errors, 0.5), quantile(errors, 0.95));
    CHECK(lowest > 0.01);
    CHECK(highest < 0.98);
    CHECK(quantile(errors, 0.5) > 0.03);
    CHECK(quantile(errors, 0.5) < 0.15);
    CHECK(quantile(errors, 0.95) < 1);
}

// Another simulation, with 76 measured cameras and a warm LED: median 1.7, 95th percentile 3.6 (no published
// source).
TEST_CASE("A matrix made for daylight is off by several dE2000 under a warm lamp") {
    const Lamp lamp = make_lamp("led:3000");
    std::vector<double> errors;
    for (std::uint64_t number = 0; number < cameras; ++number) {
        const CameraView view = look_at(make_camera(number), lamp, WhiteBalance::automatic);
        for (const WoodKind& wood : wood_kinds()) {
            const Bands reflectance = stained_reflectance(wood, {}, 0.3);
            const Vector3 xyz = rgb_to_xyz_d50(srgb) * (view.output_matrix() * view.raw(reflectance));
            errors.push_back(
                ciede2000(lamp.lab(reflectance), to_lab({xyz[0], xyz[1], xyz[2]}, d50_icc)).value);
        }
    }
    std::printf("  warm LED: median %.2f, 95th percentile %.2f\n", quantile(errors, 0.5),
                quantile(errors, 0.95));
    CHECK(quantile(errors, 0.5) > 1);
    CHECK(quantile(errors, 0.5) < 3);
    CHECK(quantile(errors, 0.95) < 5);
}

TEST_CASE("A camera's curve keeps black, middle and white, rises everywhere, and its table is exact") {
    double worst = 0;
    for (const double strength : {0.0, 0.1, 0.2, 0.9}) {
        const CameraCurve curve(strength);
        CHECK(curve.encode_exactly(0) == 0);
        CHECK(curve.encode_exactly(1) == Approx(1).epsilon(1e-12));
        CHECK(curve.encode_exactly(0.21404114) == Approx(0.5).margin(1e-7));  // IEC 61966-2-1 at 0.5
        CHECK(curve.encode(-0.1F) == 0.0F);
        CHECK(curve.encode(1.5F) == Approx(1.0));
        float before = -1;
        for (int i = 0; i <= 65535; ++i) {
            const float linear = static_cast<float>(i) / 65535;
            const float now = curve.encode(linear);
            if (!(now > before)) FAIL("not rising at " << linear << " with strength " << strength);
            before = now;
            worst = std::max(worst, std::abs(static_cast<double>(now) -
                                             curve.encode_exactly(static_cast<double>(linear))));
        }
    }
    check_tight("curve's table against its formula", worst, 2e-7);
}

TEST_CASE("The training reflectances are physical and the same every time") {
    // Of each wood ground and figure, bare, finished and stained four times; then twice as many others.
    CHECK(training_reflectances().size() == 3 * 12 * wood_kinds().size());
    for (const Bands& reflectance : training_reflectances())
        for (const double value : reflectance) {
            CHECK(value > 0);
            CHECK(value < 1);
        }
}
