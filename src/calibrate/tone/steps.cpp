#include "calibrate/tone/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "colour/xyz.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

// The black level in the frame's decoded linear light.
Vector3 decode_black(const Frame& frame, double code) {
    const double top = frame.type == SampleType::uint8    ? 255.0
                       : frame.type == SampleType::uint16 ? 65535.0
                                                          : 1.0;
    if (!(code >= 0 && code < top)) {
        throw InputError(
            fmt::format("--black-level {}: must lie between 0 and {} for {}", code, top, frame.name));
    }
    const auto encoded = static_cast<float>(code / top);
    std::array<float, 3> rgb{encoded, encoded, encoded};
    frame.encoding.decoding->decode(rgb.data(), rgb.data(), 1);
    return {rgb[0], rgb[1], rgb[2]};
}

// What a faithful camera of this linear space, balanced to the card's light, says for the patch.
Vector3 expected_rgb(const Matrix3& xyz_to_rgb, const Patch& patch) {
    const XYZ xyz = to_xyz(patch.lab, d50_icc);
    return xyz_to_rgb * Vector3{xyz.X, xyz.Y, xyz.Z};
}

[[noreturn]] void refuse_without_steps(const Frame& frame, const std::vector<PatchReading>& patches) {
    bool clipped = false;
    for (const PatchReading& reading : patches) clipped |= reading.clipped > 0;
    if (clipped) {
        throw InputError(fmt::format(
            "{}: every neutral patch of the card is clipped (pure white or pure black); change the "
            "exposure so that the card shows as greys, or check the card's corners",
            frame.name));
    }
    throw InputError(fmt::format(
        "{}: no neutral patch of the card can be read; check the card's corners (--card-at)", frame.name));
}

[[noreturn]] void refuse_disorder(const Frame& frame) {
    throw InputError(
        fmt::format("{}: the card's steps do not get darker in the order its file says; turn the card so "
                    "that its top is at the frame's 'top' "
                    "(or give --card-at from the card's own top-left corner), or choose the right --card",
                    frame.name));
}

// Steps that are the same grey, or so nearly that noise and light can swap them, count as one.
bool belong_together(const CurvePoint& darker, const CurvePoint& lighter) {
    const double ratio = lighter.truth / darker.truth;
    return ratio < 1.02 || (ratio < 1.15 && lighter.seen <= darker.seen && lighter.seen > 0.9 * darker.seen);
}

CurvePoint joined(const CurvePoint& p, const CurvePoint& q) {
    return {(p.seen + q.seen) / 2, (p.truth + q.truth) / 2, std::hypot(p.seen_u, q.seen_u) / 2};
}

std::vector<CurvePoint> join_equal_steps(std::vector<CurvePoint> points) {
    std::sort(points.begin(), points.end(), [](const auto& p, const auto& q) { return p.truth < q.truth; });
    std::vector<CurvePoint> result;
    for (const CurvePoint& point : points) {
        if (!result.empty() && belong_together(result.back(), point)) {
            result.back() = joined(result.back(), point);
        } else {
            result.push_back(point);
        }
    }
    return result;
}

// One channel's steps, and the seen value of black if it is given or the card has a black that reflects
// nothing.
struct ChannelSteps {
    std::vector<CurvePoint> points;
    std::optional<double> black;
};

ToneCurve fit_channel(const Frame& frame, ChannelSteps steps) {
    steps.points = join_equal_steps(std::move(steps.points));
    if (!steps_in_order(steps.points)) refuse_disorder(frame);
    if (steps.points.front().seen <= steps.black.value_or(0.0)) {
        throw InputError(fmt::format(
            "{}: a step of the card is as dark as black; check --black-level and the exposure", frame.name));
    }
    return ToneCurve(std::move(steps.points), steps.black);
}

}  // namespace

bool serves_as_step(const PatchReading& reading) {
    return reading.patch.neutral() && reading.pixels > 0 && reading.clipped_share() <= clipped_share_allowed;
}

std::array<ToneCurve, 3> fit_curves(const Frame& frame, const std::vector<PatchReading>& patches,
                                    std::optional<double> black_level) {
    const Matrix3 xyz_to_rgb = inverse(frame.encoding.to_xyz_d50);
    std::array<ChannelSteps, 3> channels;
    if (black_level) {
        const Vector3 black = decode_black(frame, *black_level);
        for (std::size_t c = 0; c < 3; ++c) channels[c].black = black[c];
    }
    for (const PatchReading& reading : patches) {
        if (!serves_as_step(reading)) continue;
        const Vector3 truth = expected_rgb(xyz_to_rgb, reading.patch);
        for (std::size_t c = 0; c < 3; ++c) {
            if (truth[c] >= black_truth) {
                channels[c].points.push_back(
                    {reading.mean[c], truth[c] * reading.light[c], reading.mean_u[c]});
            } else if (!channels[c].black) {
                channels[c].black = reading.mean[c];
            }
        }
    }
    std::array<ToneCurve, 3> curves;
    for (std::size_t c = 0; c < 3; ++c) {
        if (channels[c].points.empty()) refuse_without_steps(frame, patches);
        curves[c] = fit_channel(frame, std::move(channels[c]));
    }
    return curves;
}

}  // namespace tonemend
