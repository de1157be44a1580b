#include "practice/fault_light.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tonemend {

namespace {

constexpr double radian = std::numbers::pi / 180;

// The light that a half plane of shadow leaves.
struct Shadow {
    double loss, cosine, sine, edge, softness;

    double at(double x, double y) const {
        const double depth = (x * cosine + y * sine - edge) / softness;
        return 1 - loss * 0.5 * std::erfc(-depth / std::numbers::sqrt2);
    }
};

Shadow cast_shadow(const PracticeScene& scene) {
    const PracticeFaults& faults = scene.options.faults;
    Shadow shadow{faults.shadow_percent / 100, std::cos(faults.shadow_angle * radian),
                  std::sin(faults.shadow_angle * radian), 0, scene.options.width / 50.0};
    double near = 1e300, far = -1e300;
    for (const Point& corner : scene.card->sheet) {
        const double along = corner.x * shadow.cosine + corner.y * shadow.sine;
        near = std::min(near, along), far = std::max(far, along);
    }
    shadow.edge = far - faults.shadow_share * (far - near);
    return shadow;
}

void cast(const PracticeScene& scene, RawPicture& picture) {
    const Shadow shadow = cast_shadow(scene);
    for (int y = 0; y < picture.height; ++y) {
        float* pixel = picture.row(y);
        for (int x = 0; x < picture.width; ++x, pixel += 3) {
            const auto light = static_cast<float>(shadow.at(x + 0.5, y + 0.5));
            for (std::size_t c = 0; c < 3; ++c) pixel[c] *= light;
        }
    }
}

void band(const PracticeScene& scene, RawPicture& picture) {
    const PracticeFaults& faults = scene.options.faults;
    const double period = faults.banding_period * picture.height;
    const auto length = 3 * static_cast<std::size_t>(picture.width);
    for (int y = 0; y < picture.height; ++y) {
        const double angle = 2 * std::numbers::pi * (y + 0.5) / period + faults.banding_phase * radian;
        const auto light = static_cast<float>(1 - faults.banding_percent / 200 * (1 + std::sin(angle)));
        float* row = picture.row(y);
        for (std::size_t i = 0; i < length; ++i) row[i] *= light;
    }
}

}  // namespace

void dim_by_faults(const PracticeScene& scene, RawPicture& picture) {
    if (scene.options.faults.shadow_percent > 0 && scene.card) cast(scene, picture);
    if (scene.options.faults.banding_percent > 0) band(scene, picture);
}

void add_glint(const PracticeScene& scene, RawPicture& picture) {
    const double strength = scene.options.faults.glint_percent / 100;
    if (strength <= 0) return;
    const PixelRect& region = scene.repair.region;
    const double x0 = region.x + region.width / 2.0, y0 = region.y + region.height / 2.0;
    const double radius = region.width / 6.0;
    for (int y = region.y; y < region.y + region.height; ++y) {
        for (int x = region.x; x < region.x + region.width; ++x) {
            const double distance = std::hypot(x + 0.5 - x0, y + 0.5 - y0) / radius;
            const double mirrored = strength / (1 + std::pow(distance, 8.0));
            for (std::size_t c = 0; c < 3; ++c)
                picture.row(y)[3 * x + static_cast<int>(c)] +=
                    static_cast<float>(mirrored * scene.view.white[c]);
        }
    }
}

}  // namespace tonemend
