#include "cli/calibration_summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "calibrate/flat/paper_spots.h"
#include "calibrate/tone/steps.h"
#include "colour/difference.h"
#include "measure/uncertainty.h"
#include "picture/text_line.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

Reading even_wood(const Calibration& calibration, const Lab& lab) {
    Reading reading;
    reading.lab = lab;
    reading.pixels = 100'000;
    reading.centre = middle_of(calibration.card_corners);
    reading.sampled.mean = calibrated_rgb(calibration.characterisation.model, to_xyz(lab, d50_icc));
    return reading;
}

std::string plain_value(double value) {
    return number_text(value, Sign::only_minus);
}

Lab seen_lab(const Calibration& calibration, const Vector3& light) {
    return to_lab(calibration.to_xyz(light), d50_icc);
}

// How far a grey step is, in ΔE2000, from what curves through the other steps alone say of it; by its truth
// in green. The outermost steps, which would be extrapolated, are not there.
std::map<double, double> left_out_steps(const Calibration& calibration) {
    std::map<double, double> errors;
    std::array<std::vector<double>, 3> relative;
    for (std::size_t c = 0; c < 3; ++c) relative[c] = calibration.curves[c].leave_one_out();
    const auto& points = calibration.curves[1].points();
    for (std::size_t i = 0; i < relative[1].size(); ++i) {
        Vector3 truth{}, without{};
        for (std::size_t c = 0; c < 3; ++c) {
            truth[c] = calibration.curves[c].points()[i + 1].truth;
            without[c] = truth[c] * (1 + relative[c][i]);
        }
        errors[points[i + 1].truth] =
            ciede2000(seen_lab(calibration, truth), seen_lab(calibration, without)).value;
    }
    return errors;
}

std::string say_step(const Calibration& calibration, double light) {
    for (const auto& [truth, error] : left_out_steps(calibration))
        if (std::abs(truth - light) < 0.01 * truth)
            return fmt::format("grey step   left out {:.2f}\n", error);
    return "grey step\n";
}

std::string patch_line(const Calibration& calibration, const PatchReading& reading) {
    const std::string name = one_line(reading.patch.name, 18);
    const Lab& known = reading.patch.lab;
    std::string text = fmt::format("  {:<18}  L* {:>5}  a* {:>5}  b* {:>5}   ", name, plain_value(known.L),
                                   plain_value(known.a), plain_value(known.b));
    if (reading.pixels == 0) return text + "cannot be read\n";
    const Vector3 light = calibration.light_of(reading);
    text += fmt::format("off by {:.2f}   ", ciede2000(known, seen_lab(calibration, light)).value);
    if (serves_as_step(reading)) return text + say_step(calibration, light[1]);
    const auto& fits = calibration.characterisation.patches;
    const auto fit = std::find_if(fits.begin(), fits.end(), [&](const PatchFit& known_fit) {
        return known_fit.name == reading.patch.name;
    });
    if (fit == fits.end()) return text + "not fitted\n";
    return text + (fit->leave_one_out_de2000
                       ? fmt::format("fitted      left out {:.2f}\n", *fit->leave_one_out_de2000)
                       : "fitted\n");
}

}  // namespace

CalibrationWorth judge_worth(const Calibration& calibration) {
    const Reading wood = even_wood(calibration, {45, 15, 25});
    Lab other = wood.lab;
    // ΔE2000 grows near enough in proportion over so short a way.
    const double whole = ciede2000(wood.lab, {wood.lab.L + 2, wood.lab.a + 1, wood.lab.b + 2}).value;
    const double share = 2 / whole;
    other = {wood.lab.L + 2 * share, wood.lab.a + share, wood.lab.b + 2 * share};
    const PairUncertainty u = propagate(calibration, wood, even_wood(calibration, other));
    return {*std::max_element(u.original_u95.begin(), u.original_u95.end()), u.de2000_u95};
}

std::string summarise_calibration(const Frame& frame, const Calibration& calibration) {
    std::string text = fmt::format("\n  {} in {}\n  picture: {}\n\n", calibration.card_name, frame.name,
                                   frame.encoding.description);
    for (const PatchReading& reading : calibration.patches) text += patch_line(calibration, reading);
    text += "  off by: ΔE2000 that is left; left out: the same when the patch is kept out of the fit\n";
    text += fmt::format("\n  tones: {}\n  colour: {}\n", calibration.tone_curve,
                        calibration.characterisation.description);
    const CalibrationWorth worth = judge_worth(calibration);
    text += fmt::format(
        "  worth, on brown wood by the card: L*, a*, b* {}, a difference of ΔE2000 2 {} (95 %, grain not "
        "counted)\n",
        interval_text(worth.lab_u95), interval_text(worth.de2000_u95));
    for (const Warning& warning : calibration.warnings)
        text += fmt::format("  {} {} ({})\n", warning.unfit ? "UNFIT:" : "mind:", warning.text, warning.code);
    return text + "\n";
}

}  // namespace tonemend
