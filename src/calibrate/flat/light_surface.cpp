#include "calibrate/flat/light_surface.h"

#include <cassert>

namespace tonemend {
namespace {

using Powers = std::array<double, most_surface_degree + 1>;

Powers chebyshev(double x) {
    Powers t{1, x};
    for (std::size_t n = 2; n < t.size(); ++n) t[n] = 2 * x * t[n - 1] - t[n - 2];
    return t;
}

}  // namespace

SurfaceTerms::SurfaceTerms(int width, int height, int degree)
    : width_(width), height_(height), degree_(degree) {
    assert(width > 0 && height > 0 && degree >= 1 && degree <= most_surface_degree);
}

std::size_t SurfaceTerms::count() const {
    return static_cast<std::size_t>((degree_ + 1) * (degree_ + 2) / 2 - 1);
}

std::vector<int> SurfaceTerms::orders() const {
    std::vector<int> orders;
    for (int order = 1; order <= degree_; ++order)
        orders.insert(orders.end(), static_cast<std::size_t>(order + 1), order);
    return orders;
}

std::vector<double> SurfaceTerms::at(const Point& place) const {
    const Powers x = chebyshev(2 * place.x / width_ - 1), y = chebyshev(2 * place.y / height_ - 1);
    std::vector<double> values;
    values.reserve(count());
    for (int order = 1; order <= degree_; ++order)
        for (int i = 0; i <= order; ++i)
            values.push_back(x[static_cast<std::size_t>(i)] * y[static_cast<std::size_t>(order - i)]);
    return values;
}

}  // namespace tonemend
