#include <lcms2.h>

#include <cmath>

#include "colour/difference.h"
#include "colour/lch.h"
#include "tests/catch.h"
#include "tests/colour/random_pairs.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

double lcms_ciede2000(const Lab& first, const Lab& second) {
    const cmsCIELab a{first.L, first.a, first.b};
    const cmsCIELab b{second.L, second.a, second.b};
    return cmsCIE2000DeltaE(&a, &b, 1, 1, 1);
}

}  // namespace

TEST_CASE("CIEDE2000 agrees with Little CMS on 100,000 random pairs") {
    double worst = 0;
    double largest = 0;
    for (const auto& [first, second] : make_random_pairs(100000)) {
        const double ours = ciede2000(first, second).value;
        worst = std::fmax(worst, std::abs(ours - lcms_ciede2000(first, second)));
        largest = std::fmax(largest, ours);
    }
    CHECK(largest > 100);
    check_tight("ΔE00 against Little CMS", worst, 1e-12);
}

TEST_CASE("CIEDE2000 agrees with Little CMS on either side of every edge between its branches") {
    // Edges: hues 180° apart (both use a slack, theirs a millionth of a degree: stay outside it), a mean hue
    // across 0°, a sum of hues of 360°, chroma 0, the axes.
    double worst = 0;
    for (const double chroma : {0.0, 1e-3, 2.5, 40.0}) {
        for (int hue = 0; hue < 360; hue += 5) {
            for (const double apart : {-180.0, -90.0, 0.0, 90.0, 180.0, 360.0 - 2.0 * hue}) {
                for (const double beside : {-1e-4, 1e-4}) {
                    const Lab first = to_lab(LCh{50, chroma, static_cast<double>(hue)});
                    const Lab second = to_lab(LCh{55, 20, hue + apart + beside});
                    // The formula's hues are those of a′; opposite and mirrored hues stay so when a is
                    // scaled.
                    worst = std::fmax(
                        worst, std::abs(ciede2000(first, second).value - lcms_ciede2000(first, second)));
                }
            }
        }
    }
    check_tight("ΔE00 against Little CMS beside the edges", worst, 2e-13);
}

TEST_CASE("CIE76 agrees with Little CMS") {
    double worst = 0;
    for (const auto& [first, second] : make_random_pairs(10000)) {
        const cmsCIELab a{first.L, first.a, first.b};
        const cmsCIELab b{second.L, second.a, second.b};
        worst = std::fmax(worst, std::abs(delta_e_76(first, second) - cmsDeltaE(&a, &b)));
    }
    check_tight("ΔE*ab against Little CMS", worst, 1e-13);
}
