#include "practice/camera.h"

#include <algorithm>
#include <cmath>

#include "practice/camera_matrix.h"
#include "practice/random.h"

namespace tonemend {

namespace {

// A Gaussian with a width of its own on either side: dyed filters rise faster than they fall.
double bump(double nm, double centre, double below, double above) {
    const double u = (nm - centre) / (nm < centre ? below : above);
    return std::exp(-0.5 * u * u);
}

std::array<Bands, 3> draw_sensitivities(Random& random) {
    const double red_centre = random.uniform(588, 602);
    const double red_below = random.uniform(22, 30);
    const double red_above = random.uniform(36, 48);
    const double green_centre = random.uniform(526, 540);
    const double green_below = random.uniform(32, 40);
    const double green_above = random.uniform(28, 35);
    const double blue_centre = random.uniform(452, 466);
    const double blue_below = random.uniform(24, 32);
    const double blue_above = random.uniform(24, 32);
    const double green_in_red = random.uniform(0.08, 0.24);
    const double blue_in_red = random.uniform(0.02, 0.08);
    const double red_in_green = random.uniform(0.02, 0.08);
    const double blue_in_green = random.uniform(0.05, 0.13);
    const double green_in_blue = random.uniform(0.03, 0.09);
    const double red_height = random.uniform(0.65, 0.9);
    const double blue_height = random.uniform(0.7, 0.95);
    // Glass and the infrared filter cut both ends.
    const double violet_edge = random.uniform(408, 416);
    const double infrared_edge = random.uniform(668, 690);
    const auto filter = [=](double nm) {
        return 1 / (1 + std::exp((violet_edge - nm) / 5)) / (1 + std::exp((nm - infrared_edge) / 9));
    };
    const auto red = [=](double nm) { return bump(nm, red_centre, red_below, red_above); };
    const auto green = [=](double nm) { return bump(nm, green_centre, green_below, green_above); };
    const auto blue = [=](double nm) { return bump(nm, blue_centre, blue_below, blue_above); };
    return {make_bands([=](double nm) {
                return red_height * filter(nm) *
                       (red(nm) + green_in_red * green(nm) + blue_in_red * blue(nm));
            }),
            make_bands([=](double nm) {
                return filter(nm) * (green(nm) + red_in_green * red(nm) + blue_in_green * blue(nm));
            }),
            make_bands([=](double nm) {
                return blue_height * filter(nm) * (blue(nm) + green_in_blue * green(nm));
            })};
}

}  // namespace

PracticeCamera make_camera(std::uint64_t number) {
    Random random(number, "camera");
    PracticeCamera camera;
    camera.number = number;
    camera.sensitivity = draw_sensitivities(random);
    double highest = 0;
    for (const Bands& channel : camera.sensitivity)
        highest = std::max(highest, *std::max_element(channel.begin(), channel.end()));
    for (Bands& channel : camera.sensitivity)
        for (double& value : channel) value /= highest;
    camera.full_well = random.uniform(12000, 45000);
    camera.read_noise = random.uniform(3, 9);
    camera.to_srgb = fit_camera_matrix(camera.sensitivity);
    return camera;
}

Vector3 CameraView::raw(const Bands& reflectance) const {
    return {inner_product(weights[0], reflectance), inner_product(weights[1], reflectance),
            inner_product(weights[2], reflectance)};
}

Matrix3 CameraView::output_matrix() const {
    Matrix3 matrix = to_srgb * Matrix3::diagonal(balance[0], balance[1], balance[2]);
    for (auto& row : matrix.m)
        for (double& value : row) value *= output_scale;
    return matrix;
}

CameraView look_at(const PracticeCamera& camera, const Lamp& lamp, WhiteBalance balance) {
    Bands diffuser;
    diffuser.fill(1);
    CameraView view;
    view.to_srgb = camera.to_srgb;
    Vector3& white = view.white;
    for (std::size_t c = 0; c < 3; ++c) {
        for (std::size_t i = 0; i < band_count; ++i)
            view.weights[c][i] = lamp.power[i] * camera.sensitivity[c][i];
        white[c] = inner_product(view.weights[c], diffuser);
    }
    const double brightest = std::max({white[0], white[1], white[2]});
    for (std::size_t c = 0; c < 3; ++c) {
        for (double& weight : view.weights[c]) weight /= brightest;
        white[c] /= brightest;
        view.balance[c] = 1 / white[c];
    }
    if (balance == WhiteBalance::daylight) {
        const CameraView daylight = look_at(camera, make_lamp("CIE-D65"), WhiteBalance::automatic);
        view.balance = daylight.balance;
    }
    const Vector3 output = view.output_matrix() * white;
    view.output_scale = 1 / std::max({output[0], output[1], output[2]});
    return view;
}

}  // namespace tonemend
