// A reading kept with its picture can be measured again: same samples, same light, same CIELAB. The reading
// itself has outside checks in tests/measure; here it is its own peer.
#include <cmath>
#include <cstdio>
#include <cstring>
#include <nlohmann/json.hpp>

#include "picture/icc_decoding.h"
#include "picture/linear_picture.h"
#include "picture/read_picture.h"
#include "picture/standard_encodings.h"
#include "tests/catch.h"
#include "tests/record/kept_area.h"
#include "tests/record/practice_reading.h"
#include "tests/support/table_profile.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

double worst_lab(const Comparison& a, const Comparison& b) {
    double worst = 0;
    const auto look = [&worst](const Lab& p, const Lab& q) {
        worst = std::max({worst, std::abs(p.L - q.L), std::abs(p.a - q.a), std::abs(p.b - q.b)});
    };
    look(a.original.lab, b.original.lab), look(a.repair.lab, b.repair.lab);
    look(a.original.ground, b.original.ground), look(a.repair.figure, b.repair.figure);
    return worst;
}

/// As a camera averages: the same light in 16 bits, sRGB's curve, primaries of its own.
Frame mean_frame(const Frame& frame) {
    Frame mean = frame;
    mean.encoding.decoding = srgb_encoding(Provenance::stated).decoding;
    mean.encoding.to_xyz_d50 = rgb_to_xyz_d50(romm_rgb);
    mean.encoding.description += ", mean of 16 frames";
    mean.facts.mean_of = 16;
    return mean;
}

/// As LibRaw hands over: 16-bit linear, camera primaries, unbalanced.
Frame raw_frame(const Frame& frame) {
    Frame raw = frame;
    raw.encoding = linear_srgb_encoding(Provenance::stated);
    raw.encoding.description = "raw: linear camera RGB, the camera's own matrix";
    raw.encoding.to_xyz_d50 =
        raw.encoding.to_xyz_d50 * Matrix3{{{{1.6, -0.5, -0.1}, {-0.2, 1.5, -0.3}, {0.05, -0.45, 1.4}}}};
    raw.encoding.camera_native = true;
    raw.encoding.native_balance = {2.03, 1, 1.57};
    raw.facts.raw = true;
    raw.facts.iso = 200;
    const LinearPicture light = linear_light(frame, {0, 0, frame.width, frame.height});
    auto* out = reinterpret_cast<std::uint16_t*>(raw.samples.data());
    for (std::size_t i = 0; i < light.rgb.size(); ++i)
        out[i] = static_cast<std::uint16_t>(std::lround(65535.0 * static_cast<double>(light.rgb[i])));
    return raw;
}

Frame float_frame(const Frame& frame) {
    Frame result = frame;
    result.type = SampleType::float32;
    result.encoding = linear_srgb_encoding(Provenance::assumed);
    const LinearPicture light = linear_light(frame, {0, 0, frame.width, frame.height});
    result.samples.resize(light.rgb.size() * sizeof(float));
    std::memcpy(result.samples.data(), light.rgb.data(), result.samples.size());
    return result;
}

Frame table_frame(const Frame& frame) {
    Frame result = frame;
    result.encoding = icc_encoding(table_profile(), StoredChannels::three, "scan.tif");
    return result;
}

struct Row {
    const char* name;
    Frame frame;
    const char* kind;
    double worst_alone;  ///< by another program, which knows the picture's file and no more
};

}  // namespace

TEST_CASE("A kept reading is measured again to the same Lab, whatever its picture was made of") {
    const PracticeReading eight(8), sixteen(16);
    Frame jpeg = eight.frame;
    jpeg.facts.jpeg_quality = 80;
    const Row rows[] = {{"8 bit, sRGB assumed", eight.frame, "png", 0.001},
                        {"8 bit, was a JPEG", jpeg, "png", 0.001},
                        {"16-bit mean, own primaries", mean_frame(sixteen.frame), "png", 0.001},
                        {"raw", raw_frame(sixteen.frame), "png", 0.001},
                        {"float", float_frame(sixteen.frame), "tif", 0.001},
                        {"lookup table", table_frame(eight.frame), "tif", 0.001}};
    KeptArea area;
    AreaReadings& job = area.readings;
    for (const Row& row : rows) {
        INFO(row.name);
        const PracticeReading& bench = row.frame.type == SampleType::uint8 ? eight : sixteen;
        const ReadingToKeep reading = bench.to_keep(row.frame);
        const KeptReading kept = job.keep(reading);
        CHECK(kept.has_source);
        const std::filesystem::path file = area.source_file(kept.number);
        REQUIRE(std::filesystem::exists(file));
        CHECK(file.extension() == std::string(".") + row.kind);
        const ReopenedReading back = job.reopen(kept.number);
        const Frame& frame = *back.source.frame;
        CHECK(frame.samples == row.frame.samples);
        CHECK(frame.name == row.frame.name);
        CHECK(frame.encoding.description == row.frame.encoding.description);
        CHECK(frame.encoding.assumed == row.frame.encoding.assumed);
        CHECK(frame.encoding.native_balance == row.frame.encoding.native_balance);
        CHECK(frame.facts.jpeg_quality == row.frame.facts.jpeg_quality);
        CHECK(frame.facts.iso == row.frame.facts.iso);
        CHECK(frame.facts.mean_of == row.frame.facts.mean_of);
        CHECK(back.source.card_name == "six-step-card");
        REQUIRE(back.source.card);
        const Comparison again =
            compare_regions(frame, PracticeReading::calibrate(frame, *back.source.card), back.source.original,
                            back.source.repair, back.reading.tolerance);
        const double worst = worst_lab(again, reading.comparison);
        const double interval = again.difference.de2000_u95 - reading.comparison.difference.de2000_u95;
        CHECK(worst < 0.001);
        CHECK(std::abs(interval) < 0.001);
        CHECK(again.warnings.size() == reading.comparison.warnings.size());
        // The file by itself, as `tonemend compare` would read it.
        const Frame alone = read_picture(file);
        const double worst_alone = worst_lab(bench.compare(alone, *back.source.card), reading.comparison);
        CHECK(worst_alone < row.worst_alone);
        std::printf(
            "kept and measured again, %s: worst Lab %.5f, interval %+.5f; the file alone %.5f; %.1f MB\n",
            row.name, worst, interval, worst_alone,
            static_cast<double>(std::filesystem::file_size(file)) / 1e6);
    }
    CHECK(job.list().size() == std::size(rows));
}
