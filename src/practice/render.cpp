#include "practice/render.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "colour/rgb_space.h"
#include "picture/standard_encodings.h"
#include "practice/camera_curve.h"
#include "practice/picture_style.h"
#include "practice/sensor.h"

namespace tonemend {

namespace {

template <typename Sample>
void encode_row(const float* raw, int width, const std::array<float, 9>& matrix, const CameraCurve& curve,
                Sample* out) {
    constexpr auto top = static_cast<float>(static_cast<Sample>(-1));
    for (int x = 0; x < width; ++x, raw += 3, out += 3)
        for (std::size_t c = 0; c < 3; ++c) {
            const float linear =
                matrix[3 * c] * raw[0] + matrix[3 * c + 1] * raw[1] + matrix[3 * c + 2] * raw[2];
            // Never negative, so this rounds; unlike lround it runs several pixels at a time.
            // NOLINTNEXTLINE(bugprone-incorrect-roundings)
            out[c] = static_cast<Sample>(curve.encode(linear) * top + 0.5F);
        }
}

RawPicture linear_output(const Matrix3& output, const RawPicture& raw) {
    RawPicture linear = raw;
    for (std::size_t i = 0; i < linear.rgb.size(); i += 3) {
        const Vector3 rgb =
            output * Vector3{static_cast<double>(raw.rgb[i]), static_cast<double>(raw.rgb[i + 1]),
                             static_cast<double>(raw.rgb[i + 2])};
        for (std::size_t c = 0; c < 3; ++c) linear.rgb[i + c] = static_cast<float>(rgb[c]);
    }
    return linear;
}

template <typename Sample>
void encode(const PracticeScene& scene, const RawPicture& raw, std::vector<std::byte>& samples) {
    const CameraCurve curve(scene.s_curve);
    Matrix3 output = scene.view.output_matrix();
    RawPicture styled;
    if (is_styled(scene.options.faults)) {
        styled = linear_output(output, raw);
        apply_style(scene.options.faults, styled);
        output = Matrix3::identity();
    }
    const RawPicture& picture = styled.rgb.empty() ? raw : styled;
    std::array<float, 9> matrix{};
    for (std::size_t i = 0; i < 9; ++i) matrix[i] = static_cast<float>(output.m[i / 3][i % 3]);
    std::vector<Sample> row(3 * static_cast<std::size_t>(raw.width));
    const std::size_t bytes = row.size() * sizeof(Sample);
    samples.resize(bytes * static_cast<std::size_t>(raw.height));
    for (int y = 0; y < raw.height; ++y) {
        encode_row(picture.row(y), raw.width, matrix, curve, row.data());
        std::memcpy(samples.data() + bytes * static_cast<std::size_t>(y), row.data(), bytes);
    }
}

}  // namespace

RawPicture take_picture(const PracticeScene& scene) {
    RawPicture picture = light_map(scene);
    blur(picture, scene.blur);
    expose(scene, picture);
    return picture;
}

Frame develop(const PracticeScene& scene, const RawPicture& raw, int bits) {
    Frame frame;
    frame.name = "practice picture";
    frame.width = raw.width;
    frame.height = raw.height;
    frame.type = bits == 8 ? SampleType::uint8 : SampleType::uint16;
    frame.encoding = srgb_encoding(Provenance::assumed);
    if (bits == 8)
        encode<std::uint8_t>(scene, raw, frame.samples);
    else
        encode<std::uint16_t>(scene, raw, frame.samples);
    return frame;
}

SensorMosaic to_mosaic(const PracticeScene& scene, const RawPicture& raw) {
    constexpr float pedestal = 1024;
    SensorMosaic mosaic;
    mosaic.width = raw.width / 2 * 2;
    mosaic.height = raw.height / 2 * 2;
    mosaic.black_level = static_cast<std::uint16_t>(pedestal);
    mosaic.values.reserve(static_cast<std::size_t>(mosaic.width) * static_cast<std::size_t>(mosaic.height));
    for (int y = 0; y < mosaic.height; ++y)
        for (int x = 0; x < mosaic.width; ++x) {
            const int channel = y % 2 + x % 2;  // R G over G B
            const float value = pedestal + (65535 - pedestal) * raw.row(y)[3 * x + channel];
            mosaic.values.push_back(
                static_cast<std::uint16_t>(std::lround(std::clamp(value, 0.0F, 65535.0F))));
        }
    const CameraView daylight = look_at(scene.camera, make_lamp("CIE-D65"), WhiteBalance::automatic);
    mosaic.xyz_to_camera = inverse(rgb_to_xyz(srgb) * daylight.output_matrix());
    const Vector3& white = scene.view.white;
    mosaic.neutral = {white[0], white[1], white[2]};
    return mosaic;
}

Frame render(const PracticeScene& scene) {
    return develop(scene, take_picture(scene), scene.options.bits);
}

}  // namespace tonemend
