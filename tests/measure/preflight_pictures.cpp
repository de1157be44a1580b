#include "tests/measure/preflight_pictures.h"

#include <fmt/format.h>
#include <unistd.h>

#include <atomic>
#include <cmath>
#include <filesystem>

#include "calibrate/card/find_card.h"
#include "colour/srgb_curve.h"
#include "measure/comparison.h"
#include "picture/input_error.h"
#include "picture/read_picture.h"
#include "picture/standard_encodings.h"
#include "practice/random.h"
#include "practice/render.h"
#include "practice/write_practice.h"
#include "tests/support/scratch_folder.h"

namespace tonemend::testing {
namespace {

constexpr std::array lamps{"CIE-D65", "CIE-D50", "daylight:5600", "led:5500", "CIE-D55"};

Frame through_raw(const PracticeScene& scene, const RawPicture& raw) {
    static std::atomic<int> count = 0;
    const std::filesystem::path path = std::filesystem::temp_directory_path() /
                                       fmt::format("tonemend-preflight-{}-{}.dng", getpid(), count++);
    write_dng(to_mosaic(scene, raw), path);
    Frame frame = read_picture(path);
    std::filesystem::remove(path);
    return frame;
}

std::filesystem::path write_coloured_card(const std::filesystem::path& path) {
    put_content(
        path,
        "CGATS.17\nNUMBER_OF_FIELDS 8\nBEGIN_DATA_FORMAT\nSAMPLE_NAME X0 Y0 X1 Y1 LAB_L LAB_A LAB_B\n"
        "END_DATA_FORMAT\nNUMBER_OF_SETS 12\nBEGIN_DATA\n"
        "n1 0.02 0.05 0.15 0.45 96 0 0\nn2 0.18 0.55 0.31 0.95 79 0 0\nn3 0.35 0.05 0.48 0.45 65 0 0\n"
        "n4 0.52 0.55 0.65 0.95 49.5 0 0\nn5 0.68 0.05 0.81 0.45 35 0 0\nn6 0.85 0.55 0.98 0.95 22 0 0\n"
        "c1 0.18 0.05 0.31 0.45 45 25 25\nc2 0.35 0.55 0.48 0.95 60 12 35\nc3 0.52 0.05 0.65 0.45 40 -20 12\n"
        "c4 0.68 0.55 0.81 0.95 45 5 -28\nc5 0.85 0.05 0.98 0.45 70 5 50\nc6 0.02 0.55 0.15 0.95 42 28 2\n"
        "END_DATA\n");
    return path;
}

}  // namespace

std::string coloured_card() {
    static const ScratchFolder folder;
    static const std::filesystem::path path = write_coloured_card(folder / "coloured.txt");
    return path.string();
}

PracticeOptions good_options(std::uint64_t number) {
    Random sitting(number / 2, "preflight sitting"), random(number, "preflight picture");
    PracticeOptions options;
    options.seed = 5000 + number;
    options.width = 1280, options.height = 960;
    options.lamp = lamps.at(static_cast<std::size_t>(sitting.below(static_cast<int>(lamps.size()))));
    options.white_balance = sitting.below(2) == 0 ? WhiteBalance::automatic : WhiteBalance::daylight;
    options.camera = static_cast<std::uint64_t>(sitting.below(24));
    options.exposure = sitting.uniform(0.7, 0.92);
    options.black_level = sitting.uniform(0, 0.01);
    options.tone = sitting.below(3) == 0 ? CameraTone::srgb : CameraTone::mild_s_curve;
    options.s_curve = sitting.uniform(0.05, 0.2);
    options.blur = random.uniform(0.4, 1.2);
    options.tilt = random.uniform(0, 10);
    if (random.below(4) == 0) options.rotation = random.uniform(-180, 180);
    options.fall_off_percent = random.uniform(0, 1.5);
    options.fall_off = random.below(2) == 0 ? FallOff::linear : FallOff::radial;
    options.grain_size = random.uniform(0.7, 1.5);
    options.streaks = random.uniform(0, 0.3);
    options.pair = std::array{PairKind::same_colourant, PairKind::earth,
                              PairKind::other}[static_cast<std::size_t>(random.below(3))];
    options.jpeg_quality = 90 + random.below(6);
    if (number % 4 == 1) options.card = coloured_card();
    return options;
}

FileKindOfShot file_kind(std::uint64_t number) {
    if (number % 10 == 9) return FileKindOfShot::raw;
    return number % 2 == 0 ? FileKindOfShot::sixteen_bits : FileKindOfShot::jpeg;
}

Shot take_shot(const PracticeOptions& options, FileKindOfShot kind) {
    Shot shot;
    shot.scene = make_scene(options);
    const RawPicture raw = take_picture(shot.scene);
    if (kind == FileKindOfShot::raw) {
        shot.frame = through_raw(shot.scene, raw);
    } else {
        shot.frame = develop(shot.scene, raw, kind == FileKindOfShot::jpeg ? 8 : 16);
        shot.frame.encoding = srgb_encoding(Provenance::stated);
        if (options.faults.first_jpeg_quality > 0) {
            shot.frame = saved_as_jpeg(shot.frame, options.faults.first_jpeg_quality);
            shot.frame.facts.jpeg_quality.reset();
        }
        if (kind == FileKindOfShot::jpeg) shot.frame = saved_as_jpeg(shot.frame, options.jpeg_quality);
    }
    shot.original = rectangle(shot.scene.original.region);
    shot.repair = rectangle(shot.scene.repair.region);
    return shot;
}

void darken(Frame& frame, const Region& area, double factor) {
    for (const Span& span : spans(area)) {
        for (int i = 3 * span.first; i < 3 * span.last; ++i) {
            std::byte* row = frame.samples.data() + (frame.row(span.row) - frame.samples.data());
            if (frame.type == SampleType::uint8) {
                auto& code = reinterpret_cast<std::uint8_t*>(row)[i];
                code = static_cast<std::uint8_t>(
                    std::lround(255 * encode_srgb(factor * decode_srgb(code / 255.0))));
            } else {
                auto& code = reinterpret_cast<std::uint16_t*>(row)[i];
                code = static_cast<std::uint16_t>(
                    std::lround(65535 * encode_srgb(factor * decode_srgb(code / 65535.0))));
            }
        }
    }
}

Calibration calibrate_shot(const Shot& shot) {
    const Card& card = shot.scene.card->card;
    if (shot.card_at) return calibrate_on_card(shot.frame, card, *shot.card_at);
    if (const auto found = find_card(shot.frame)) return calibrate_on_card(shot.frame, card, *found);
    return calibrate_on_card(shot.frame, card, shot.scene.card->corners);
}

std::vector<Warning> warnings_of(const Shot& shot) {
    try {
        return compare_regions(shot.frame, calibrate_shot(shot), shot.original, shot.repair).warnings;
    } catch (const InputError& error) {
        return {{"refused", error.what(), true}};
    }
}

}  // namespace tonemend::testing
