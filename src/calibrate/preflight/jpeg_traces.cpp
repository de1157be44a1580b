#include "calibrate/preflight/jpeg_traces.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <vector>

namespace tonemend {
namespace {

constexpr int side = 8;
constexpr double squares_wanted = 1500;
constexpr int lines_for_phase = 24, longest_line = 1024;
constexpr int least_step = 6, most_step = 40;
constexpr std::size_t least_coefficients = 60;  // that are not near zero
constexpr double strength_worth_saying = 0.5;

struct Frequency {
    int u, v;  // across, down
};
constexpr std::array<Frequency, 8> frequencies{
    {{1, 0}, {0, 1}, {1, 1}, {2, 0}, {0, 2}, {2, 1}, {1, 2}, {3, 0}}};

// Luma of a pixel as JPEG has it (ITU-T T.871), in codes of 256.
float luma_at(const Frame& frame, int x, int y) {
    const std::size_t place = 3 * static_cast<std::size_t>(x);
    const auto luma = [&](auto* samples) {
        return 0.299F * static_cast<float>(samples[place]) + 0.587F * static_cast<float>(samples[place + 1]) +
               0.114F * static_cast<float>(samples[place + 2]);
    };
    if (frame.type == SampleType::uint8) return luma(reinterpret_cast<const std::uint8_t*>(frame.row(y)));
    return luma(reinterpret_cast<const std::uint16_t*>(frame.row(y))) / 257.0F;
}

std::array<std::array<float, side>, side> cosines() {
    std::array<std::array<float, side>, side> table{};
    for (int u = 0; u < side; ++u)
        for (int x = 0; x < side; ++x)
            table[static_cast<std::size_t>(u)][static_cast<std::size_t>(x)] =
                static_cast<float>(std::cos((2 * x + 1) * u * std::numbers::pi / 16) *
                                   (u == 0 ? std::numbers::sqrt2 / 2 : 1) / 2);
    return table;
}

using Coefficients = std::array<std::vector<float>, frequencies.size()>;

void transform_square(const Frame& frame, int left, int top, Coefficients& coefficients) {
    static const auto table = cosines();
    std::array<std::array<float, 4>, side> rows{};  // by u, a row each
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            const float luma = luma_at(frame, left + x, top + y);
            for (std::size_t u = 0; u < 4; ++u)
                rows[static_cast<std::size_t>(y)][u] += luma * table[u][static_cast<std::size_t>(x)];
        }
    }
    for (std::size_t k = 0; k < frequencies.size(); ++k) {
        const auto u = static_cast<std::size_t>(frequencies[k].u),
                   v = static_cast<std::size_t>(frequencies[k].v);
        float sum = 0;
        for (std::size_t y = 0; y < side; ++y) sum += rows[y][u] * table[v][y];
        coefficients[k].push_back(sum);
    }
}

// Where squares begin by the look of the picture: the phase whose changes exceed those beside it the most.
int likely_phase(const Frame& frame, bool across) {
    const int length = across ? frame.width : frame.height, lines = across ? frame.height : frame.width;
    std::array<double, side> excess{};
    for (int line = 0; line < lines; line += std::max(1, lines / lines_for_phase) | 1) {
        const auto luma = [&](int k) { return across ? luma_at(frame, k, line) : luma_at(frame, line, k); };
        std::array<float, 4> v{luma(0), luma(1), luma(2), luma(3)};
        for (int k = 2; k + 2 < std::min(length, longest_line); ++k) {
            const float jump = std::abs(v[2] - v[1]) - (std::abs(v[1] - v[0]) + std::abs(v[3] - v[2])) / 2;
            excess[static_cast<std::size_t>(k % side)] += static_cast<double>(jump);
            v = {v[1], v[2], v[3], luma(k + 2)};
        }
    }
    return static_cast<int>(std::max_element(excess.begin(), excess.end()) - excess.begin());
}

Coefficients transform_squares(const Frame& frame, int phase_x, int phase_y) {
    const int columns = (frame.width - phase_x) / side, rows = (frame.height - phase_y) / side;
    // An odd stride, so that squares of all columns are met.
    const int every = std::max(1, static_cast<int>(columns * static_cast<double>(rows) / squares_wanted)) | 1;
    Coefficients coefficients;
    for (int i = 0; i < columns * rows; i += every)
        transform_square(frame, phase_x + side * (i % columns), phase_y + side * (i / columns), coefficients);
    return coefficients;
}

struct StepFit {
    double step = 0, strength = 0;
};

// cos(2π · turns), to 0.01.
float cosine_of_turns(float turns) {
    constexpr std::size_t size = 256;
    static const auto table = [] {
        std::array<float, size> values{};
        for (std::size_t i = 0; i < size; ++i)
            values[i] = static_cast<float>(std::cos(2 * std::numbers::pi * static_cast<double>(i) / size));
        return values;
    }();
    const float part = turns - std::floor(turns);
    // Never negative, so this rounds.
    // NOLINTNEXTLINE(bugprone-incorrect-roundings)
    return table[static_cast<std::size_t>(part * size + 0.5F) % size];
}

StepFit fit_step(const std::vector<float>& values) {
    StepFit best;
    for (int step = least_step; step <= most_step; ++step) {
        double sum = 0;
        std::size_t count = 0;
        const float least = 0.6F * static_cast<float>(step), rate = 1.0F / static_cast<float>(step);
        for (const float value : values) {
            if (std::abs(value) < least) continue;
            sum += static_cast<double>(cosine_of_turns(value * rate));
            ++count;
        }
        if (count < least_coefficients) break;
        const double strength = sum / static_cast<double>(count);
        if (strength > best.strength) best = {static_cast<double>(step), strength};
    }
    return best;
}

JpegTraces traces_at(const Frame& frame, int phase_x, int phase_y) {
    const Coefficients coefficients = transform_squares(frame, phase_x, phase_y);
    std::vector<double> strengths;
    JpegTraces traces;
    for (const std::vector<float>& values : coefficients) {
        const StepFit fit = fit_step(values);
        if (fit.step == 0) continue;
        strengths.push_back(fit.strength);
        if (fit.strength > strength_worth_saying) traces.step = std::max(traces.step, fit.step);
    }
    if (strengths.size() < 3) return {};
    const auto middle = strengths.begin() + static_cast<std::ptrdiff_t>(strengths.size() / 2);
    std::nth_element(strengths.begin(), middle, strengths.end());
    traces.strength = *middle;
    return traces;
}

}  // namespace

std::optional<JpegTraces> find_jpeg_traces(const Frame& frame) {
    if (frame.samples.empty()) return std::nullopt;
    if (frame.facts.raw || frame.type == SampleType::float32 || frame.facts.mean_of > 1) return std::nullopt;
    if (std::min(frame.width, frame.height) < 8 * side) return std::nullopt;
    JpegTraces traces = traces_at(frame, 0, 0);
    const int phase_x = likely_phase(frame, true), phase_y = likely_phase(frame, false);
    if (traces.strength > strength_worth_saying || (phase_x == 0 && phase_y == 0)) return traces;
    const JpegTraces elsewhere = traces_at(frame, phase_x, phase_y);
    return elsewhere.strength > traces.strength ? elsewhere : traces;
}

std::optional<Warning> warn_of_jpeg_traces(const Frame& frame) {
    const auto traces = find_jpeg_traces(frame);
    if (!traces || traces->strength < strength_worth_saying) return std::nullopt;
    return Warning{
        "jpeg-resaved",
        fmt::format("the picture was a strong JPEG before (its squares are rounded to steps of {:.0f} "
                    "codes), though the file does not say so; use the camera's own file",
                    traces->step),
        false};
}

}  // namespace tonemend
