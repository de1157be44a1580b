#include "practice/sensor.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "practice/random.h"

namespace tonemend {

namespace {

std::vector<float> gaussian_kernel(double sigma) {
    const int radius = static_cast<int>(std::ceil(3.5 * sigma));
    std::vector<float> kernel;
    double sum = 0;
    for (int i = -radius; i <= radius; ++i) sum += std::exp(-0.5 * i * i / (sigma * sigma));
    for (int i = -radius; i <= radius; ++i)
        kernel.push_back(static_cast<float>(std::exp(-0.5 * i * i / (sigma * sigma)) / sum));
    return kernel;
}

}  // namespace

void blur(RawPicture& picture, double sigma) {
    if (sigma <= 0) return;
    const std::vector<float> kernel = gaussian_kernel(sigma);
    const int taps = static_cast<int>(kernel.size());
    const int radius = taps / 2;
    const auto length = 3 * static_cast<std::size_t>(picture.width);
    std::vector<float> padded(length + 6 * static_cast<std::size_t>(radius));
    for (int y = 0; y < picture.height; ++y) {
        float* row = picture.row(y);
        const std::size_t pad = 3 * static_cast<std::size_t>(radius);
        std::copy(row, row + length, padded.begin() + static_cast<std::ptrdiff_t>(pad));
        for (std::size_t i = 0; i < pad; ++i) {
            padded[i] = row[i % 3];
            padded[pad + length + i] = row[length - 3 + i % 3];
        }
        std::fill(row, row + length, 0.0F);
        for (std::size_t k = 0; k < kernel.size(); ++k)
            for (std::size_t i = 0; i < length; ++i) row[i] += kernel[k] * padded[i + 3 * k];
    }
    // Down the columns: a window of rows as they were before.
    const RawPicture before = picture;
    for (int y = 0; y < picture.height; ++y) {
        float* row = picture.row(y);
        std::fill(row, row + length, 0.0F);
        for (int k = 0; k < taps; ++k) {
            const float* from = before.row(std::clamp(y + k - radius, 0, picture.height - 1));
            const float weight = kernel[static_cast<std::size_t>(k)];
            for (std::size_t i = 0; i < length; ++i) row[i] += weight * from[i];
        }
    }
}

namespace {

// No two pictures of one set-up have the same noise.
std::string stream_of(const PracticeOptions& options) {
    const std::string side =
        options.lamp_from ? fmt::format(", lamp from {:g}", *options.lamp_from) : std::string();
    if (!side.empty() && options.subject == PracticeSubject::grey_sheet)
        return "sensor noise of the sheet" + side;
    if (!side.empty()) return "sensor noise" + side;
    if (options.pair_lamp) return "sensor noise under " + options.lamp;
    if (options.subject == PracticeSubject::grey_sheet) return "sensor noise of the sheet";
    if (!options.card_x) return "sensor noise";
    return *options.card_x < 0.5 ? "sensor noise, card left" : "sensor noise, card right";
}

}  // namespace

void expose(const PracticeScene& scene, RawPicture& picture) {
    const auto length = 3 * static_cast<std::size_t>(picture.width);
    const auto per_electron = static_cast<float>(1 / scene.camera.full_well);
    const auto read = static_cast<float>(std::pow(scene.camera.read_noise / scene.camera.full_well, 2));
    const auto amount = static_cast<float>(scene.options.noise);
    std::vector<float> normals(length);
    const std::string stream = stream_of(scene.options);
    for (int y = 0; y < picture.height; ++y) {
        float* row = picture.row(y);
        if (amount > 0) {
            Random random(scene.options.seed, stream, static_cast<std::uint64_t>(y));
            NormalTable::get().fill(random, normals.data(), length);
            for (std::size_t i = 0; i < length; ++i)
                row[i] += amount * std::sqrt(row[i] * per_electron + read) * normals[i];
        }
        for (std::size_t i = 0; i < length; ++i) row[i] = std::min(row[i], 1.0F);
    }
}

}  // namespace tonemend
