#pragma once

#include <cstring>
#include <functional>

#include "calibrate/calibration.h"
#include "colour/lab.h"
#include "picture/frame.h"
#include "picture/standard_encodings.h"

namespace tonemend::testing {

/// A float frame in linear light with sRGB primaries whose pixel (x, y) shows the CIELAB colour paint(x, y),
/// exactly.
inline Frame paint_frame(int width, int height, const std::function<Lab(int, int)>& paint) {
    Frame frame;
    frame.name = "painted";
    frame.width = width, frame.height = height, frame.type = SampleType::float32;
    frame.encoding = linear_srgb_encoding(Provenance::stated);
    frame.samples.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3 *
                         sizeof(float));
    const Matrix3 to_rgb = inverse(frame.encoding.to_xyz_d50);
    std::byte* out = frame.samples.data();
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const XYZ xyz = to_xyz(paint(x, y), d50_icc);
            const Vector3 rgb = to_rgb * Vector3{xyz.X, xyz.Y, xyz.Z};
            for (const double value : rgb) {
                const auto sample = static_cast<float>(value);
                std::memcpy(out, &sample, sizeof sample);
                out += sizeof sample;
            }
        }
    }
    return frame;
}

/// A card of neutral steps side by side, left to right, of the given reflectances.
inline Card neutral_card(const std::vector<double>& reflectances) {
    Card card;
    card.name = "painted steps";
    const double width = 1.0 / static_cast<double>(reflectances.size());
    for (std::size_t i = 0; i < reflectances.size(); ++i) {
        Patch patch;
        patch.name = "step " + std::to_string(i + 1);
        patch.x0 = static_cast<double>(i) * width, patch.x1 = patch.x0 + width, patch.y0 = 0, patch.y1 = 1;
        const double y = reflectances[i];
        patch.lab = to_lab({d50_icc.X * y, y, d50_icc.Z * y}, d50_icc);
        card.patches.push_back(patch);
    }
    return card;
}

}  // namespace tonemend::testing
