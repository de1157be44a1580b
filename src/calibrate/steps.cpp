#include "calibrate/steps.h"

#include <fmt/format.h>

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

}  // namespace

std::array<ToneCurve, 3> fit_curves(const Frame& frame, const std::vector<PatchReading>& patches,
                                    std::optional<double> black_level) {
    const Vector3 black = black_level ? decode_black(frame, *black_level) : Vector3{};
    const Matrix3 xyz_to_rgb = inverse(frame.encoding.to_xyz_d50);
    std::array<std::vector<CurvePoint>, 3> points;
    for (const PatchReading& reading : patches) {
        if (!reading.patch.neutral() || reading.clipped_share() > clipped_share_allowed) continue;
        const Vector3 truth = expected_rgb(xyz_to_rgb, reading.patch);
        for (std::size_t c = 0; c < 3; ++c) {
            points[c].push_back(
                {reading.mean[c], truth[c], reading.mean_u[c] / std::max(std::abs(reading.mean[c]), 1e-4)});
        }
    }
    if (points[0].empty()) refuse_without_steps(frame, patches);
    std::array<ToneCurve, 3> curves;
    for (std::size_t c = 0; c < 3; ++c) {
        if (!steps_in_order(points[c])) {
            throw InputError(fmt::format(
                "{}: the card's steps do not get darker in the order its file says; give the corners as "
                "top-left, top-right, bottom-right, bottom-left of the card, or choose the right --card",
                frame.name));
        }
        for (const CurvePoint& point : points[c]) {
            if (point.seen <= black[c]) {
                throw InputError(fmt::format(
                    "{}: a step of the card is as dark as black; check --black-level and the exposure",
                    frame.name));
            }
        }
        if (black_level && points[c].size() < 6 && points[c].size() > 1) {
            // Black is known: it is one more step, of no light at all.
            points[c].push_back({black[c], 0.0});
        }
        curves[c] = ToneCurve(points[c], black[c]);
    }
    return curves;
}

}  // namespace tonemend
