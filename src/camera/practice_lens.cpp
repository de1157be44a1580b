#include "camera/practice_lens.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "picture/sample_storage.h"
#include "picture/standard_encodings.h"
#include "practice/camera_curve.h"

namespace tonemend {

namespace {

constexpr std::size_t pool_size = 1U << 20U;
constexpr float top_step = 65535;

const std::vector<float>& noise_pool() {
    static const std::vector<float> pool = [] {
        std::vector<float> normals(pool_size);
        Random random(1, "live noise");
        NormalTable::get().fill(random, normals.data(), normals.size());
        return normals;
    }();
    return pool;
}

// What the lamp's beat leaves of the light for one row; 1 at its brightest.
double beat(const PracticeFlicker& flicker, std::uint64_t number, double height_share) {
    const double turns =
        static_cast<double>(number) * flicker.turns_a_frame + height_share * flicker.turns_a_height;
    return 1 - flicker.swing_percent / 200 * (1 + std::sin(2 * std::numbers::pi * turns));
}

}  // namespace

PracticeLens::PracticeLens(const PracticeScene& scene, const RawPicture& light)
    : width_(light.width),
      height_(light.height),
      plane_(static_cast<std::size_t>(light.width) * static_cast<std::size_t>(light.height)),
      light_(3 * plane_),
      noise_(3 * plane_),
      codes_(static_cast<std::size_t>(top_step) + 1),
      encoding_(live_video_encoding()) {
    const auto per_electron = static_cast<float>(1 / scene.camera.full_well);
    const auto read = static_cast<float>(std::pow(scene.camera.read_noise / scene.camera.full_well, 2));
    const auto amount = static_cast<float>(scene.options.noise);
    for (std::size_t i = 0; i < light.rgb.size(); ++i) {
        const std::size_t place = i % 3 * plane_ + i / 3;
        light_[place] = light.rgb[i];
        noise_[place] = amount * std::sqrt(light.rgb[i] * per_electron + read);
    }
    const Matrix3 output = scene.view.output_matrix();
    for (std::size_t i = 0; i < 9; ++i) matrix_[i] = static_cast<float>(output.m[i / 3][i % 3]);
    const CameraCurve curve(scene.s_curve);
    for (std::size_t i = 0; i < codes_.size(); ++i)
        codes_[i] = static_cast<std::uint8_t>(
            std::lround(255 * curve.encode_exactly(static_cast<double>(i) / top_step)));
}

Frame PracticeLens::take(Random& random, const PracticeFlicker& flicker, std::uint64_t number) const {
    Frame frame;
    frame.name = "practice bench";
    frame.width = width_;
    frame.height = height_;
    frame.encoding = encoding_;
    frame.samples = sample_storage(3 * plane_);
    const std::vector<float>& pool = noise_pool();
    const auto width = static_cast<std::size_t>(width_);
    std::vector<float> raw(3 * width);
    std::vector<std::int32_t> steps(3 * width);
    for (std::size_t y = 0; y < static_cast<std::size_t>(height_); ++y) {
        const double lamp = beat(flicker, number, static_cast<double>(y) / height_);
        // Photon noise goes with the root of the light.
        const auto lit = static_cast<float>(lamp), grain = static_cast<float>(std::sqrt(lamp));
        for (std::size_t c = 0; c < 3; ++c) {
            const float* normals = pool.data() + random.bits() % (pool_size - width);
            const float* light = light_.data() + c * plane_ + y * width;
            const float* noise = noise_.data() + c * plane_ + y * width;
            float* out = raw.data() + c * width;
            for (std::size_t x = 0; x < width; ++x)
                out[x] = std::min(lit * light[x] + grain * noise[x] * normals[x], 1.0F);
        }
        const float *red = raw.data(), *green = red + width, *blue = green + width;
        for (std::size_t c = 0; c < 3; ++c) {
            const float a = matrix_[3 * c] * top_step, b = matrix_[3 * c + 1] * top_step,
                        d = matrix_[3 * c + 2] * top_step;
            std::int32_t* out = steps.data() + c * width;
            for (std::size_t x = 0; x < width; ++x)
                out[x] = static_cast<std::int32_t>(
                    std::min(std::max(a * red[x] + b * green[x] + d * blue[x] + 0.5F, 0.0F), top_step));
        }
        auto* out = reinterpret_cast<std::uint8_t*>(frame.samples.data()) + 3 * y * width;
        for (std::size_t x = 0; x < width; ++x)
            for (std::size_t c = 0; c < 3; ++c)
                out[3 * x + c] = codes_[static_cast<std::size_t>(steps[c * width + x])];
    }
    return frame;
}

}  // namespace tonemend
