#include "practice/sheen.h"

#include <cmath>
#include <numbers>
#include <string>

#include "practice/grain_field.h"

namespace tonemend {

namespace {

constexpr double tilt_degrees = 15, lobe_degrees = 25;
constexpr double radians_a_degree = std::numbers::pi / 180;

// From −180 to 180.
double wrapped(double degrees) {
    return std::remainder(degrees, 360);
}

std::vector<float> mirrored(const BoardSide& side, double lamp, double unit, std::uint64_t seed,
                            const std::string& name) {
    std::vector<float> field =
        gaussian_field(side.board.width, side.board.height, 80 * unit, 40 * unit, seed, "waves " + name);
    const double ratio = tilt_degrees / lobe_degrees;
    const double peak = side.gloss * std::sqrt(1 + ratio * ratio);
    for (float& value : field) {
        const double off = wrapped(lamp - tilt_degrees * static_cast<double>(value)) / lobe_degrees;
        value = static_cast<float>(peak * std::exp(-0.5 * off * off));
    }
    return field;
}

// Curl runs across the grain.
std::vector<float> leaning(const BoardSide& side, double lamp, double unit, std::uint64_t seed,
                           const std::string& name) {
    const auto field = [&](const char* stream) {
        return gaussian_field(side.board.width, side.board.height, 20 * unit, 90 * unit, seed, stream + name);
    };
    std::vector<float> values = field("fibres along ");
    const std::vector<float> other = field("fibres across ");
    const auto along = static_cast<float>(side.shimmer * std::cos(lamp * radians_a_degree)),
               across = static_cast<float>(side.shimmer * std::sin(lamp * radians_a_degree));
    for (std::size_t i = 0; i < values.size(); ++i)
        values[i] = std::max(0.0F, 1 + along * values[i] + across * other[i]);
    return values;
}

}  // namespace

Sheen grow_sheen(const PracticeScene& scene, const BoardSide& side) {
    const PracticeOptions& options = scene.options;
    if (!options.lamp_from) return {};
    const std::string name = &side == &scene.original ? "original" : "repair";
    const double unit = options.width / 1600.0;
    Sheen sheen;
    if (side.gloss > 0) sheen.gloss = mirrored(side, *options.lamp_from, unit, options.seed, name);
    if (side.shimmer > 0) sheen.shimmer = leaning(side, *options.lamp_from, unit, options.seed, name);
    return sheen;
}

}  // namespace tonemend
