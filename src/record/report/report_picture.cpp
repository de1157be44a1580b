#include "record/report/report_picture.h"

#include "picture/encoders.h"
#include "picture/input_error.h"
#include "picture/read_picture.h"
#include "record/report/report_palette.h"

namespace tonemend {
namespace {

void take_colour_out(DisplayPicture& picture) {
    for (std::size_t i = 0; i + 2 < picture.rgb.size(); i += 3) {
        const int grey = grey_of({picture.rgb[i], picture.rgb[i + 1], picture.rgb[i + 2]})[0];
        for (std::size_t c = 0; c < 3; ++c) picture.rgb[i + c] = static_cast<std::uint8_t>(grey);
    }
}

}  // namespace

std::optional<ReportPicture> report_picture(const ReportPictures& pictures, const std::string& sha256,
                                            bool grey) {
    if (sha256.empty() || !pictures) return std::nullopt;
    try {
        const auto bytes = pictures(sha256);
        if (!bytes) return std::nullopt;
        PreviewOptions shrunk;
        shrunk.longest_side = report_picture_side;
        DisplayPicture picture = make_preview(read_picture(*bytes, "the annotated picture"), shrunk);
        if (grey) take_colour_out(picture);
        WriteOptions options;
        options.jpeg_quality = report_jpeg_quality;
        return ReportPicture{picture.width, picture.height, encode_jpeg(as_frame(picture), options)};
    } catch (const InputError&) {
        return std::nullopt;
    }
}

}  // namespace tonemend
