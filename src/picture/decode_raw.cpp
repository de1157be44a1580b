#include <libraw/libraw.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <memory>

#include <fmt/format.h>

#include "colour/rgb_space.h"
#include "picture/standard_encodings.h"
#include "picture/still.h"
#include "picture/text_line.h"
#include "picture/tiff_directory.h"

namespace tonemend {
namespace {

/// Linear sensor values, nothing balanced, nothing brightened, and a scale that depends on the camera's own
/// saturation only, never on what the picture shows.
void ask_for_linear_camera_rgb(libraw_output_params_t& params) {
    params.output_bps = 16;
    params.gamm[0] = params.gamm[1] = 1;
    params.no_auto_bright = 1;
    params.use_auto_wb = 0;
    params.use_camera_wb = 0;
    std::fill_n(params.user_mul, 4, 1.0F);
    params.output_color = 0;
    params.highlight = 0;
    params.user_qual = 0;
    params.adjust_maximum_thr = 0;
}

int exif_orientation(int flip) {
    switch (flip) {
        case 3:
            return 3;
        case 5:
            return 8;
        case 6:
            return 6;
        default:
            return 1;
    }
}

/// White-balanced camera RGB → linear sRGB, from the camera's own matrix, and so to XYZ.
ColourEncoding camera_encoding(const libraw_colordata_t& colour) {
    Matrix3 to_srgb;
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column)
            to_srgb.m[row][column] = static_cast<double>(colour.rgb_cam[row][column]);
    ColourEncoding encoding;
    encoding.camera_native = true;
    encoding.decoding = linear_decoding();
    const double size = determinant(to_srgb);
    const bool known = std::isfinite(size) && std::abs(size) > 1e-6;
    encoding.assumed = !known;
    encoding.description =
        known ? "raw: linear camera RGB, the camera's own matrix"
              : "raw: linear camera RGB (camera unknown, its matrix assumed to be that of sRGB)";
    if (known && colour.pre_mul[1] > 0) {
        for (std::size_t c = 0; c < 3; ++c) {
            encoding.native_balance[c] =
                static_cast<double>(colour.pre_mul[c]) / static_cast<double>(colour.pre_mul[1]);
        }
    }
    encoding.to_xyz_d50 = rgb_to_xyz_d50(srgb) * (known ? to_srgb : Matrix3::identity());
    return encoding;
}

CaptureFacts raw_facts(const libraw_data_t& data) {
    const auto positive = [](float value) {
        return std::isfinite(value) && value > 0 ? std::optional<double>(static_cast<double>(value))
                                                 : std::nullopt;
    };
    CaptureFacts facts;
    facts.raw = true;
    const std::string make = one_line(data.idata.make, 60);
    const std::string model = one_line(data.idata.model, 60);
    facts.camera = model.starts_with(make) ? model : make + " " + model;
    facts.exposure_seconds = positive(data.other.shutter);
    facts.f_number = positive(data.other.aperture);
    facts.iso = positive(data.other.iso_speed);
    return facts;
}

/// LibRaw goes on after damage; it tells of it here, with a position whose type differs between versions.
constexpr auto note_missing_data = [](void* missing, const char*, auto) {
    *static_cast<bool*>(missing) = true;
};

void require(int status, const std::string& name) {
    if (status < 0) refuse_damaged(name, one_line(libraw_strerror(status)));
}

}  // namespace

bool is_raw(std::span<const std::byte> bytes) {
    if (!directories_are_whole(bytes)) return false;
    const auto raw = std::make_unique<LibRaw>();
    raw->set_dataerror_handler(nullptr, nullptr);
    if (raw->open_buffer(const_cast<std::byte*>(bytes.data()), bytes.size()) != LIBRAW_SUCCESS) return false;
    return raw->imgdata.idata.make[0] != 0 &&
           (raw->imgdata.idata.filters != 0 || raw->imgdata.idata.is_foveon);
}

Still decode_raw(std::span<const std::byte> bytes, const std::string& name) {
    if (!directories_are_whole(bytes)) refuse_damaged(name, "its directory reaches beyond its end");
    const auto raw = std::make_unique<LibRaw>();
    bool data_missing = false;
    raw->set_dataerror_handler(note_missing_data, &data_missing);
    ask_for_linear_camera_rgb(raw->imgdata.params);
    // LibRaw takes the bytes as writable but only reads them.
    require(raw->open_buffer(const_cast<std::byte*>(bytes.data()), bytes.size()), name);
    require_readable_size(raw->imgdata.sizes.raw_width, raw->imgdata.sizes.raw_height, name);
    require(raw->unpack(), name);
    if (data_missing) refuse_damaged(name, "sensor data is missing");
    // Before processing, which puts the gains asked for in place of daylight's.
    const ColourEncoding encoding = camera_encoding(raw->imgdata.color);
    require(raw->dcraw_process(), name);

    Still still;
    const auto& sizes = raw->imgdata.sizes;
    still.width = sizes.iwidth;
    still.height = sizes.iheight;
    still.type = SampleType::uint16;
    still.orientation = exif_orientation(sizes.flip);
    still.encoding = encoding;
    still.facts = raw_facts(raw->imgdata);
    const std::size_t pixels = static_cast<std::size_t>(still.width) * static_cast<std::size_t>(still.height);
    still.samples.resize(6 * pixels);
    const bool grey = raw->imgdata.idata.colors == 1;
    for (std::size_t i = 0; i < pixels; ++i) {
        const ushort* const camera = raw->imgdata.image[i];
        const ushort rgb[3] = {camera[0], camera[grey ? 0 : 1], camera[grey ? 0 : 2]};
        std::memcpy(still.samples.data() + 6 * i, rgb, sizeof rgb);
    }
    return still;
}

}  // namespace tonemend
