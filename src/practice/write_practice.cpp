#include "practice/write_practice.h"

#include <span>
#include <utility>

#include "picture/encoders.h"
#include "picture/read_picture.h"
#include "picture/small_letters.h"
#include "picture/srgb_profile.h"
#include "picture/write_picture.h"
#include "practice/render.h"

namespace tonemend {

namespace {

// As a JPEG that was opened and is saved once more: the same pixels in a file that says nothing of it.
Frame through_first_jpeg(const PracticeScene& scene, Frame frame) {
    const int quality = scene.options.faults.first_jpeg_quality;
    return quality > 0 ? saved_as_jpeg(frame, quality) : std::move(frame);
}

}  // namespace

Frame saved_as_jpeg(const Frame& frame, int quality) {
    Frame eight = frame;
    if (frame.type == SampleType::uint16) {
        eight.type = SampleType::uint8;
        const auto* codes = reinterpret_cast<const std::uint16_t*>(frame.samples.data());
        eight.samples.resize(frame.samples.size() / 2);
        for (std::size_t i = 0; i < eight.samples.size(); ++i)
            eight.samples[i] = static_cast<std::byte>((codes[i] + 128) / 257);
    }
    WriteOptions options;
    options.jpeg_quality = quality;
    options.icc_profile = srgb_profile();
    return read_picture(encode_jpeg(eight, options), frame.name);
}

std::filesystem::path truth_path(const std::filesystem::path& path) {
    std::filesystem::path beside = path;
    beside += ".truth.json";
    return beside;
}

Truth write_practice(const PracticeScene& scene, const std::filesystem::path& path) {
    const std::string extension = file_ending(path);
    const RawPicture raw = take_picture(scene);
    if (extension == ".dng") {
        write_dng(to_mosaic(scene, raw), path);
    } else {
        const bool eight = extension == ".jpg" || extension == ".jpeg" || extension == ".webp";
        WriteOptions options;
        options.jpeg_quality = scene.options.jpeg_quality;
        options.icc_profile = srgb_profile();
        write_picture(through_first_jpeg(scene, develop(scene, raw, eight ? 8 : scene.options.bits)), path,
                      options);
    }
    const Truth known = truth(scene);
    const std::string json = truth_json(scene, known);
    write_whole_file(truth_path(path), std::as_bytes(std::span(json)));
    return known;
}

}  // namespace tonemend
