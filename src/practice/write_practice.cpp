#include "practice/write_practice.h"

#include <algorithm>
#include <cctype>
#include <span>

#include "picture/srgb_profile.h"
#include "picture/write_picture.h"
#include "practice/render.h"

namespace tonemend {

namespace {

std::string lower_extension(const std::filesystem::path& path) {
    std::string extension = path.extension().string();
    std::transform(extension.begin(), extension.end(), extension.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return extension;
}

}  // namespace

std::filesystem::path truth_path(const std::filesystem::path& path) {
    std::filesystem::path beside = path;
    beside += ".truth.json";
    return beside;
}

Truth write_practice(const PracticeScene& scene, const std::filesystem::path& path) {
    const std::string extension = lower_extension(path);
    const RawPicture raw = take_picture(scene);
    if (extension == ".dng") {
        write_dng(to_mosaic(scene, raw), path);
    } else {
        const bool eight = extension == ".jpg" || extension == ".jpeg" || extension == ".webp";
        WriteOptions options;
        options.jpeg_quality = scene.options.jpeg_quality;
        options.icc_profile = srgb_profile();
        write_picture(develop(scene, raw, eight ? 8 : scene.options.bits), path, options);
    }
    const Truth known = truth(scene);
    const std::string json = truth_json(scene, known);
    write_whole_file(truth_path(path), std::as_bytes(std::span(json)));
    return known;
}

}  // namespace tonemend
