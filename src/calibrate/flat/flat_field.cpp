#include "calibrate/flat/flat_field.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/flat/light_surface.h"

namespace tonemend {
namespace {

std::vector<double> difference(const SurfaceTerms& terms, const Point& place, const Point& from) {
    std::vector<double> values = terms.at(place);
    const std::vector<double> start = terms.at(from);
    for (std::size_t i = 0; i < values.size(); ++i) values[i] -= start[i];
    return values;
}

}  // namespace

Vector3 FlatField::light_at(const Point& place) const {
    const std::vector<double> values = difference(SurfaceTerms(width, height, degree), place, middle);
    Vector3 light{};
    for (std::size_t c = 0; c < 3; ++c) {
        double log_light = 0;
        for (std::size_t i = 0; i < values.size(); ++i) log_light += terms[c][i] * values[i];
        light[c] = std::exp(log_light);
    }
    return light;
}

double FlatField::covariance(const Point& p, const Point& q) const {
    // The misfit is each place's own, and the card's is in both.
    const bool same = p.x == q.x && p.y == q.y;
    double sum = (same ? 2 : 1) * misfit * misfit;
    if (doubt.empty()) return sum;
    const SurfaceTerms surface(width, height, degree);
    const std::vector<double> a = difference(surface, p, middle), b = difference(surface, q, middle);
    for (std::size_t i = 0, k = 0; i < a.size(); ++i)
        for (std::size_t j = 0; j <= i; ++j, ++k)
            sum += doubt[k] * (i == j ? a[i] * b[i] : a[i] * b[j] + a[j] * b[i]);
    return sum;
}

double FlatField::u_between(const Point& p, const Point& q) const {
    const double common = covariance(p, p) + covariance(q, q) - 2 * covariance(p, q);
    return std::sqrt(std::max(0.0, common) * (1 + colour_share * colour_share));
}

std::string FlatField::description() const {
    const std::string what = source == FlatSource::grey_sheet ? std::string("an even sheet")
                                                              : fmt::format("the card at {} places", places);
    return fmt::format("light evened out by {} (surface of degree {}, residual {:.2f} %)", what, degree,
                       100 * residual);
}

}  // namespace tonemend
