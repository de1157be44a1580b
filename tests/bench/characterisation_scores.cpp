#include "tests/bench/characterisation_scores.h"

#include "calibrate/model/characterise.h"
#include "colour/difference.h"
#include "measure/comparison.h"

namespace tonemend::bench {
namespace {

constexpr double ordinary_residual = 0.006, best_residual = 0.003;

void append(std::vector<double>& list, const std::vector<double>& more) {
    list.insert(list.end(), more.begin(), more.end());
}

void add_lab(const Reading& reading, const Lab& truth, Interval& interval) {
    interval.add(reading.lab.L - truth.L, reading.lab_u95[0]);
    interval.add(reading.lab.a - truth.a, reading.lab_u95[1]);
    interval.add(reading.lab.b - truth.b, reading.lab_u95[2]);
}

CalibrationInputs inputs_of(const Method& method, const std::string& light, RepairColourants colourants) {
    CalibrationInputs inputs;
    inputs.colourants = colourants;
    if (method.light_stated) inputs.light = parse_light(light);
    return inputs;
}

Scores score(const SceneSpec& spec, const PaintedScene& scene, const std::string& light,
             const Method& method) {
    Scores scores;
    Calibration for_same = calibrate_on_card(scene.frame, card_of(spec, method.patches), card_corners,
                                             inputs_of(method, light, RepairColourants::same));
    // A flat field was taken: what it leaves is known.
    for_same.light = {0, 0, scene.slope_u};
    Calibration for_earth = for_same;
    for_earth.characterisation =
        characterise(scene.frame, for_same, inputs_of(method, light, RepairColourants::earth));
    const Comparison same = compare_regions(scene.frame, for_same, original_region(), same_region());
    const Comparison earth = compare_regions(scene.frame, for_earth, original_region(), earth_region());
    const double same_error = same.difference.de2000 - ciede2000(scene.original, scene.same).value;
    const double earth_error = earth.difference.de2000 - ciede2000(scene.original, scene.earth).value;
    scores.same = {std::abs(same_error)};
    scores.earth = {std::abs(earth_error)};
    scores.same_inside.add(same_error, same.difference.de2000_u95);
    scores.earth_inside.add(earth_error, earth.difference.de2000_u95);
    scores.absolute = {ciede2000(scene.original, same.original.lab).value,
                       ciede2000(scene.earth, earth.repair.lab).value};
    add_lab(same.original, scene.original, scores.same_lab_inside);
    add_lab(same.repair, scene.same, scores.same_lab_inside);
    add_lab(earth.original, scene.original, scores.earth_lab_inside);
    add_lab(earth.repair, scene.earth, scores.earth_lab_inside);
    const auto halves = original_halves();
    const Reading left = read_region(scene.frame, for_same, halves[0], "left");
    const Reading right = read_region(scene.frame, for_same, halves[1], "right");
    scores.blank = {ciede2000(left.lab, right.lab).value};
    return scores;
}

}  // namespace

void Scores::add(const Scores& more) {
    append(blank, more.blank), append(same, more.same);
    append(earth, more.earth), append(absolute, more.absolute);
    same_inside.add(more.same_inside), earth_inside.add(more.earth_inside);
    same_lab_inside.add(more.same_lab_inside), earth_lab_inside.add(more.earth_lab_inside);
}

std::vector<Scores> score_scene(const SceneSpec& spec, const std::string& light,
                                const std::vector<Method>& methods) {
    SceneSpec coarse = spec, fine = spec;
    coarse.light_residual = ordinary_residual, fine.light_residual = best_residual;
    const PaintedScene painted_coarse = paint(coarse), painted_fine = paint(fine);
    std::vector<Scores> scores;
    for (const Method& method : methods)
        scores.push_back(score(
            spec, method.light_residual < ordinary_residual ? painted_fine : painted_coarse, light, method));
    return scores;
}

}  // namespace tonemend::bench
