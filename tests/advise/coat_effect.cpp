// What a coat does: Kubelka's and Munk's physics in three wide channels, and the trade's facts about it.
#include "advise/model/coat_effect.h"

#include <array>
#include <cmath>

#include "advise/model/wide_channels.h"
#include "colour/difference.h"
#include "colour/kubelka_munk.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

// Reflectance of a thick layer from the flux equations themselves (Kubelka and Munk 1931), by fourth-order
// Runge–Kutta upwards from a black backing: what layer_reflectance and infinite_reflectance solve in closed
// form.
double thick_layer(double k, double s) {
    double reflectance = 0;
    constexpr double thickness = 60;
    constexpr int steps = 60000;
    constexpr double h = thickness / steps;
    // dR/dx = S − 2(K + S)·R + S·R² (Kubelka 1948, equation 5, from memory).
    const auto slope = [&](double r) { return s - 2 * (k + s) * r + s * r * r; };
    for (int i = 0; i < steps; ++i) {
        const double k1 = slope(reflectance), k2 = slope(reflectance + h / 2 * k1),
                     k3 = slope(reflectance + h / 2 * k2), k4 = slope(reflectance + h * k3);
        reflectance += h / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
    }
    return reflectance;
}

}  // namespace

TEST_CASE("A dye's absorption adds to the wood's: Duncan's additivity against the flux equations") {
    // D. R. Duncan, "The colour of pigment mixtures", Proc. Phys. Soc. 52 (1940): K and S of a mixture are
    // the sums of its parts'. The wood scatters (S = 1), the dye does not.
    double worst = 0;
    for (const double wood : {0.02, 0.1, 0.4, 1.5})
        for (const double dye : {0.05, 0.3, 1.2}) {
            const WideChannels before{thick_layer(wood, 1), thick_layer(wood, 1), thick_layer(wood, 1)};
            const WideChannels after = after_coat(before, ColourantGroup::dye, {{dye, 0.5 * dye, 0}, 0}, 1);
            worst = std::max(worst, std::abs(after[0] - thick_layer(wood + dye, 1)));
            worst = std::max(worst, std::abs(after[1] - thick_layer(wood + 0.5 * dye, 1)));
            CHECK(after[2] == Approx(before[2]));
        }
    CHECK(worst < 1e-6);
    CHECK(worst > 1e-13);
}

TEST_CASE(
    "A pigment's coat is Kubelka's layer over what is there: it hides, and thick enough nothing below "
    "shows") {
    const CoatStrength strength{{0.2, 0.6, 1.2}, 0.8};
    const WideChannels dark{0.05, 0.04, 0.03}, light{0.8, 0.7, 0.6};
    for (std::size_t i = 0; i < 3; ++i) {
        const double opaque = infinite_reflectance(strength.absorption[i] / strength.scattering);
        CHECK(after_coat(dark, ColourantGroup::pigment, strength, 20)[i] == Approx(opaque).margin(1e-6));
        CHECK(after_coat(light, ColourantGroup::pigment, strength, 20)[i] == Approx(opaque).margin(1e-6));
    }
    // Over dark wood a light pigment goes lighter, which a dye never does.
    CHECK(after_coat(dark, ColourantGroup::pigment, strength, 1)[0] > dark[0]);
    for (const double amount : {0.1, 0.5, 2.0})
        for (std::size_t i = 0; i < 3; ++i)
            CHECK(after_coat(dark, ColourantGroup::dye, {{0.2, 0.6, 1.2}, 0}, amount)[i] < dark[i]);
}

TEST_CASE("Two half coats are one coat, nothing is nothing, and bleach takes colour away") {
    const WideChannels wood{0.5, 0.35, 0.2};
    for (const ColourantGroup group :
         {ColourantGroup::dye, ColourantGroup::pigment, ColourantGroup::bleach}) {
        const CoatStrength strength{{0.1, 0.4, 0.9}, 0.1};
        const WideChannels once = after_coat(wood, group, strength, 1);
        const WideChannels twice = after_coat(after_coat(wood, group, strength, 0.5), group, strength, 0.5);
        const WideChannels none = after_coat(wood, group, strength, 0);
        for (std::size_t i = 0; i < 3; ++i) {
            CHECK(twice[i] == Approx(once[i]).margin(1e-9));
            CHECK(none[i] == Approx(wood[i]).margin(1e-9));
        }
    }
    CHECK(after_coat(wood, ColourantGroup::bleach, {{0.5, 0.5, 0.5}, 0}, 1)[2] > wood[2]);
}

TEST_CASE("Wide channels hold every colour of wood") {
    for (const Lab& lab :
         {Lab{72, 8, 25}, Lab{45, 18, 30}, Lab{25, 10, 8}, Lab{88, 1, 14}, Lab{55, 35, 45}}) {
        CHECK(ciede2000(to_lab(to_channels(lab)), lab).value < 1e-6);
        for (const double channel : to_channels(lab)) {
            CHECK(channel > 0);
            CHECK(channel < 1);
        }
    }
}
