#include "picture/read_picture.h"

#include "picture/exif_facts.h"
#include "picture/file_bytes.h"
#include "picture/icc_decoding.h"
#include "picture/orientation.h"
#include "picture/standard_encodings.h"
#include "picture/still.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

Still decode(std::span<const std::byte> bytes, const std::string& name) {
    switch (recognise(bytes)) {
        case FileKind::jpeg:
            return decode_jpeg(bytes, name);
        case FileKind::png:
            return decode_png(bytes, name);
        case FileKind::tiff:
            return decode_tiff(bytes, name);
        case FileKind::webp:
            return decode_webp(bytes, name);
        case FileKind::raw:
            return decode_raw(bytes, name);
        case FileKind::heif:
            refuse(name, "is HEIC or AVIF, which is not read", "set the phone to JPEG or raw, or convert it");
        case FileKind::unknown:
            break;
    }
    refuse(name, "is not a picture that can be read", "give a JPEG, PNG, TIFF, WebP or a camera's raw file");
}

/// An embedded profile rules; then what the format says; then what EXIF says; then the custom.
ColourEncoding encoding_of(const Still& still, ExifColour exif, const std::string& name) {
    if (!still.icc.empty())
        return icc_encoding(still.icc, still.grey ? StoredChannels::one : StoredChannels::three, name);
    if (still.encoding) return *still.encoding;
    if (exif == ExifColour::op_rgb) return op_rgb_encoding("opRGB (stated in EXIF)");
    return srgb_encoding(exif == ExifColour::srgb ? Provenance::stated : Provenance::assumed);
}

/// What EXIF adds to what the decoder itself knows.
CaptureFacts joined(const CaptureFacts& decoder, CaptureFacts exif) {
    if (decoder.raw) return decoder;
    exif.jpeg_quality = decoder.jpeg_quality;
    return exif;
}

}  // namespace

Frame read_picture(std::span<const std::byte> bytes, const std::string& name) {
    const std::string shown = one_line(name, 400);
    Still still = decode(bytes, shown);
    const ExifFacts exif = read_exif(
        still.file_is_exif ? std::span(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size())
                           : std::span<const std::uint8_t>(still.exif));
    Frame frame;
    frame.name = shown;
    frame.encoding = encoding_of(still, exif.colour, shown);
    frame.facts = joined(still.facts, exif.capture);
    frame.width = still.width;
    frame.height = still.height;
    frame.type = still.type;
    frame.samples = std::move(still.samples);
    turn_upright(frame, exif.orientation && still.orientation == 1 ? *exif.orientation : still.orientation);
    return frame;
}

Frame read_picture(const std::filesystem::path& path) {
    const FileBytes file = read_file_bytes(path);
    return read_picture(file.span(), path.string());
}

}  // namespace tonemend
