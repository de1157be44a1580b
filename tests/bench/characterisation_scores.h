#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "tests/bench/characterisation_scene.h"

namespace tonemend::bench {

/// One way to characterise the camera.
struct Method {
    const char* name;
    bool light_stated;
    std::size_t patches;    ///< known woods on the card
    double light_residual;  ///< what the flat field leaves: 0.006, or 0.003 of the light
};

/// How often the truth lay in a stated interval.
struct Interval {
    int inside = 0, all = 0;
    void add(double error, double u95) {
        inside += std::abs(error) <= u95 ? 1 : 0;
        ++all;
    }
    void add(const Interval& more) { inside += more.inside, all += more.all; }
    double percent() const { return 100.0 * inside / all; }
};

/// What one method did on some pictures. Errors in ΔE2000: one number a picture, of `absolute` two.
struct Scores {
    std::vector<double> blank;        ///< between the halves of the original
    std::vector<double> same, earth;  ///< of the ΔE2000 to the repair of the kind
    std::vector<double> absolute;     ///< of the original's colour and of the earth repair's
    Interval same_inside, earth_inside, same_lab_inside, earth_lab_inside;

    void add(const Scores& more);
};

/// Paints the scene and measures it by each method, in their order. `light` is what is stated.
std::vector<Scores> score_scene(const SceneSpec& spec, const std::string& light,
                                const std::vector<Method>& methods);

}  // namespace tonemend::bench
