#include "measure/film.h"

#include <algorithm>
#include <cmath>

#include "colour/kubelka_munk.h"

namespace tonemend {

double saunderson(double body, double k1, double k2) {
    return k1 + (1 - k1) * (1 - k2) * body / (1 - k2 * body);
}

double saunderson_body(double measured, double k1, double k2) {
    const double from_below = measured - k1;
    return from_below / ((1 - k1) * (1 - k2) + k2 * from_below);
}

double through_film(double bare, const ClearFilm& film) {
    const double r = std::clamp(bare, 1e-4, 1.0);
    // The wood under the film scatters less.
    const double wetted = infinite_reflectance(k_over_s(r) * std::exp(film.wetting));
    const double root = std::sqrt(film.k1);
    const double index = (1 + root) / (1 - root);
    const double leaves = (1 - film.k1) / (index * index);
    // In at a slant and out, then twice the thickness each way for what is turned back.
    const double once = std::pow(10.0, -2.13 * film.density), again = std::pow(10.0, -4 * film.density);
    return film.haze + (1 - film.k1) * leaves * wetted * once / (1 - film.k2 * again * wetted);
}

}  // namespace tonemend
