#include "measure/settling_shape.h"

#include <array>
#include <cmath>

namespace tonemend {
namespace {

double square_of(double value) {
    return value * value;
}

double faded(double passed, double drag) {
    return drag == 0 ? std::exp(-passed) : std::pow(1 + drag * passed, -1 / drag);
}

// k·t at which `part` is left of one stage.
double passed_at(double part, double drag) {
    return drag == 0 ? -std::log(part) : (std::pow(part, -drag) - 1) / drag;
}

// Shapes that are believed alike, `probability` together.
struct ShapeFamily {
    std::vector<double> drags, shares, speeds;
    double probability = 0;
};

void add_family(std::vector<WeighedShape>& shapes, const ShapeFamily& family) {
    const std::size_t before = shapes.size();
    for (const double drag : family.drags)
        for (const double share : family.shares)
            for (const double faster : share > 0 ? family.speeds : std::vector<double>{1})
                shapes.push_back({{1, drag, share, faster}, 0});
    const auto added = static_cast<double>(shapes.size() - before);
    for (std::size_t i = before; i < shapes.size(); ++i)
        shapes[i].log_prior = std::log(family.probability / added);
}

// Nearly all stains dry nearly exponentially, with something that goes twice as fast at first; a few drag on
// or change their pace altogether. The drying study shows what this belief is worth.
std::vector<WeighedShape> unit_shapes() {
    std::vector<WeighedShape> shapes;
    add_family(shapes, {{0}, {0}, {}, 0.1});
    add_family(shapes, {{0, 0.05, 0.1}, {0, 0.15, 0.3, 0.45}, {2}, 0.87});
    add_family(shapes, {{0, 0.1, 0.25, 0.5}, {0, 0.3, 0.6}, {2, 5}, 0.03});
    return shapes;
}

}  // namespace

double SettlingShape::rate() const {
    return passed_at(1.0 / 16, drag) / scale;
}

double SettlingShape::left_at(double passed) const {
    const double slow = faded(passed, drag);
    return two_stages() ? (1 - share) * slow + share * faded(faster * passed, drag) : slow;
}

double SettlingShape::time_of(double part) const {
    const double slow = passed_at(part, drag);
    if (!two_stages()) return slow / rate();
    // Between the faster stage's time alone and the slower one's.
    double low = slow / faster, high = slow;
    for (int i = 0; i < 40; ++i) {
        const double middle = (low + high) / 2;
        (left_at(middle) > part ? low : high) = middle;
    }
    return (low + high) / 2 / rate();
}

std::vector<WeighedShape> make_shapes(const SettlingPrior& prior, double shortest, double longest,
                                      int count) {
    static const std::vector<WeighedShape> units = unit_shapes();
    std::vector<WeighedShape> shapes;
    shapes.reserve(static_cast<std::size_t>(count) * units.size());
    for (int i = 0; i < count; ++i) {
        const double scale = shortest * std::pow(longest / shortest, static_cast<double>(i) / (count - 1));
        const double scale_prior = -0.5 * square_of(std::log(scale / (60 * prior.minutes)) / prior.spread);
        for (WeighedShape shape : units) {
            shape.shape.scale = scale;
            shape.log_prior += scale_prior;
            shapes.push_back(shape);
        }
    }
    return shapes;
}

}  // namespace tonemend
