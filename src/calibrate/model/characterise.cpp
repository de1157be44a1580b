#include "calibrate/model/characterise.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <cmath>
#include <numeric>

#include "calibrate/model/known_patches.h"
#include "calibrate/model/reference_spectra.h"
#include "colour/adaptation.h"
#include "colour/cct.h"
#include "colour/integrate.h"

namespace tonemend {
namespace {

// Found on the practice bench (bench_characterisation prints what they lead to).
constexpr double contrast_u_unknown_curve = 0.035;
// A root polynomial must beat the matrix by so much, left-out patches' root mean square, to be taken.
constexpr double root_gain = 0.85;
constexpr std::size_t patches_for_choice = 4;

// With an unknown light and no patches the camera's own matrix is the middle, and the doubt reaches to every
// light.
ThetaPrior around_own_matrix(const FormPrior& form) {
    return {Eigen::VectorXd::Zero(form.mean.size()), form.covariance + form.mean * form.mean.transpose(), {}};
}

double left_out_rms(const std::vector<PatchFit>& patches) {
    double sum = 0;
    for (const PatchFit& patch : patches) sum += *patch.leave_one_out_de2000 * *patch.leave_one_out_de2000;
    return std::sqrt(sum / static_cast<double>(patches.size()));
}

Matrix3 matrix_of(const Eigen::Matrix3d& from) {
    Matrix3 to;
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column)
            to.m[row][column] = from(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(column));
    return to;
}

struct Choice {
    ModelFit fit;
    std::vector<PatchFit> patches;
};

Choice fit_form(ModelForm form, const Calibration& calibration, const FormPrior& prior,
                const std::optional<StatedLight>& light) {
    const KnownPatches known = known_patches(calibration, prior, light);
    if (!light && known.patches.empty()) return {fit_model(form, around_own_matrix(prior), {}), {}};
    const ThetaPrior theta{prior.mean, prior.covariance,
                           prior.stated[static_cast<std::size_t>(known.stated)]};
    Choice choice{fit_model(form, theta, known.patches), {}};
    const std::vector<double> left_out = leave_one_out(form, theta, known.patches);
    for (std::size_t i = 0; i < known.patches.size(); ++i)
        choice.patches.push_back({known.patches[i].name,
                                  predict_patch(form, theta, known.patches, known.patches[i]), left_out[i]});
    return choice;
}

Choice choose_form(const Calibration& calibration, const LightPrior& prior,
                   const std::optional<StatedLight>& light) {
    Choice linear = fit_form(ModelForm::linear, calibration, prior.linear, light);
    if (linear.patches.size() < patches_for_choice) return linear;
    Choice root = fit_form(ModelForm::root, calibration, prior.root, light);
    return left_out_rms(root.patches) < root_gain * left_out_rms(linear.patches) ? root : linear;
}

std::string describe(const Frame& frame, const Choice& choice, const std::optional<StatedLight>& light) {
    std::string text = frame.encoding.description + ", white from the card";
    if (light) text += fmt::format(", light {}: moved to what cameras do under it", light->text);
    if (choice.patches.empty()) return text + ", no coloured patch";
    text += fmt::format(", {} fitted to {} coloured patch{}",
                        choice.fit.form == ModelForm::root ? "root polynomial" : "matrix",
                        choice.patches.size(), choice.patches.size() == 1 ? "" : "es");
    if (choice.patches.size() > 1)
        text += fmt::format(", each left out in turn missed by ΔE2000 {:.2f}", left_out_rms(choice.patches));
    return text;
}

}  // namespace

std::optional<StatedLight> light_of_raw(const Frame& frame, const XYZ& white) {
    if (!frame.encoding.camera_native || white.Y <= 0) return std::nullopt;
    static const WhitePoint d65 = white_point(read_illuminant("CIE-D65"), read_observer_1931());
    // The file's matrix is for daylight: what it calls D50 was D65.
    const XYZ light = transform(bradford(d50_icc, d65), white);
    const auto temperature = correlated_colour_temperature(WhitePoint{light.X, light.Y, light.Z});
    if (!temperature) return std::nullopt;
    StatedLight stated = light_of_temperature(std::clamp(temperature->kelvin, 2000.0, 10000.0));
    stated.text = fmt::format("about {:.0f} K by the camera's own white", stated.kelvin);
    return stated;
}

Characterisation characterise(const Frame& frame, const Calibration& calibration,
                              const CalibrationInputs& inputs) {
    Calibration straight = calibration;
    straight.characterisation.model = ColourModel::of_matrix(frame.encoding.to_xyz_d50);
    const auto light = inputs.light ? inputs.light : light_of_raw(frame, calibration.white);
    const LightPrior prior = characterisation_prior().under(light);
    const Choice choice = choose_form(straight, prior, light);

    Characterisation result;
    result.model = choice.fit.model(straight.characterisation.model);
    result.doubt = choice.fit.doubt();
    const FormPrior& form = prior.of(choice.fit.form);
    const auto kind = static_cast<std::size_t>(inputs.colourants);
    const DifferenceScatter& scatter = form.difference[kind];
    result.unexplained = {matrix_of(form.residual[kind]), matrix_of(scatter.always),
                          matrix_of(scatter.share)};
    const bool curve_known = frame.facts.raw || calibration.curves[1].kind() == CurveKind::monotone;
    result.contrast = curve_known ? 0 : contrast_u_unknown_curve;
    result.patches = choice.patches;
    if (light) result.light_kelvin = light->kelvin;
    result.description = describe(frame, choice, light);
    return result;
}

}  // namespace tonemend
