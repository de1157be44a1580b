#include "colour/difference.h"

#include <cmath>
#include <numbers>

#include "colour/lch.h"

namespace tonemend {
namespace {

// Hues of opposite colours are 180° apart only up to rounding; without this slack the branch taken, and ΔE00
// with it, would hang on the last bit (published pair 10: 7.1792 or 7.2195). 1e-9° is far over the rounding
// of a hue angle (about 1e-13°) and far under what any digit of a measured Lab can say.
constexpr double opposite_slack = 1e-9;

double radians(double degrees) {
    return degrees * std::numbers::pi / 180;
}

double square(double x) {
    return x * x;
}

double seventh_power_share(double c) {
    const double c7 = std::pow(c, 7);
    return std::sqrt(c7 / (c7 + 6103515625.0));  // 25⁷
}

}  // namespace

Ciede2000 ciede2000(const Lab& reference, const Lab& sample) {
    // The numbers in brackets are the equations of Sharma, Wu and Dalal (2005).
    const double C1ab = std::hypot(reference.a, reference.b);             // (2)
    const double C2ab = std::hypot(sample.a, sample.b);                   // (2)
    const double G = 0.5 * (1 - seventh_power_share((C1ab + C2ab) / 2));  // (3), (4)
    const double a1 = (1 + G) * reference.a;                              // (5)
    const double a2 = (1 + G) * sample.a;                                 // (5)
    const double C1 = std::hypot(a1, reference.b);                        // (6)
    const double C2 = std::hypot(a2, sample.b);                           // (6)
    const double h1 = hue_angle(a1, reference.b);                         // (7)
    const double h2 = hue_angle(a2, sample.b);                            // (7)

    const bool hueless = C1 * C2 == 0;
    double dh = hueless ? 0 : h2 - h1;  // (10)
    const bool same_turn = std::abs(dh) <= 180 + opposite_slack;
    if (!same_turn) {
        dh += dh > 0 ? -360 : 360;
    }
    Ciede2000 d;
    d.dL = sample.L - reference.L;                              // (8)
    d.dC = C2 - C1;                                             // (9)
    d.dH = 2 * std::sqrt(C1 * C2) * std::sin(radians(dh / 2));  // (11)

    const double L = (reference.L + sample.L) / 2;  // (12)
    const double C = (C1 + C2) / 2;                 // (13)
    double h = h1 + h2;                             // (14)
    if (!hueless) {
        if (!same_turn) {
            h += h < 360 ? 360 : -360;
        }
        h /= 2;
    }
    const double T = 1 - 0.17 * std::cos(radians(h - 30)) + 0.24 * std::cos(radians(2 * h)) +
                     0.32 * std::cos(radians(3 * h + 6)) - 0.20 * std::cos(radians(4 * h - 63));  // (15)
    const double dtheta = 30 * std::exp(-square((h - 275) / 25));                                 // (16)
    const double RC = 2 * seventh_power_share(C);                                                 // (17)
    const double SL = 1 + 0.015 * square(L - 50) / std::sqrt(20 + square(L - 50));                // (18)
    const double SC = 1 + 0.045 * C;                                                              // (19)
    const double SH = 1 + 0.015 * C * T;                                                          // (20)
    d.rotation = -std::sin(radians(2 * dtheta)) * RC;                                             // (21)
    d.value = std::sqrt(square(d.dL / SL) + square(d.dC / SC) + square(d.dH / SH) +
                        d.rotation * (d.dC / SC) * (d.dH / SH));  // (22)
    return d;
}

double delta_e_76(const Lab& reference, const Lab& sample) {
    return std::sqrt(square(sample.L - reference.L) + square(sample.a - reference.a) +
                     square(sample.b - reference.b));
}

double delta_e_94(const Lab& reference, const Lab& sample) {
    const double C1 = std::hypot(reference.a, reference.b);
    const double dL = sample.L - reference.L;
    const double dC = std::hypot(sample.a, sample.b) - C1;
    // ΔH² = Δa² + Δb² − ΔC², expanded; rounding may take it a hair below zero for equal hues.
    const double C2 = C1 + dC;
    const double dot = reference.a * sample.a + reference.b * sample.b;
    const double dH2 = std::fmax(0, 2 * (C1 * C2 - dot));
    const double SC = 1 + 0.045 * C1;
    const double SH = 1 + 0.015 * C1;
    return std::sqrt(square(dL) + square(dC / SC) + dH2 / square(SH));
}

}  // namespace tonemend
