#include "practice/write_practice.h"

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "colour/difference.h"
#include "picture/linear_picture.h"
#include "picture/read_picture.h"
#include "practice/render.h"
#include "tests/support/check_tight.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using tonemend::testing::ScratchFolder;

namespace {

PracticeOptions small_written_picture() {
    PracticeOptions options;
    options.seed = 17;
    options.width = 640;
    options.height = 480;
    return options;
}

Vector3 mean_linear(const Frame& frame, const PixelRect& region) {
    const LinearPicture light = linear_light(frame, region);
    Vector3 mean{};
    for (std::size_t i = 0; i < light.rgb.size(); ++i) mean[i % 3] += static_cast<double>(light.rgb[i]);
    for (double& value : mean) value /= static_cast<double>(light.rgb.size() / 3);
    return mean;
}

// A region's colour by a white in the same picture, as a card would give it: channel by channel, then the
// matrix.
Lab relative_lab(const Frame& frame, const PixelRect& region, const PixelRect& paper) {
    const Vector3 colour = mean_linear(frame, region);
    const Vector3 white = mean_linear(frame, paper);
    Vector3 balanced{};
    for (std::size_t c = 0; c < 3; ++c) balanced[c] = 0.88 * colour[c] / white[c];
    const Vector3 xyz = frame.encoding.to_xyz_d50 * balanced;
    return to_lab({xyz[0], xyz[1], xyz[2]}, d50_icc);
}

}  // namespace

TEST_CASE("A practice picture is written with its truth beside it, and reads back as it was rendered") {
    const ScratchFolder scratch;
    const PracticeScene scene = make_scene(small_written_picture());
    for (const char* name : {"a.png", "a.tif"}) {
        const std::filesystem::path path = scratch / name;
        const Truth known = write_practice(scene, path);
        CHECK(read_picture(path).samples == render(scene).samples);
        CHECK(truth_path(path) == scratch / (std::string(name) + ".truth.json"));
        const nlohmann::json json = nlohmann::json::parse(std::ifstream(truth_path(path)));
        CHECK(json["schema"] == "tonemend.practice-truth/1");
        CHECK(json["de2000"].get<double>() == known.de2000);
        CHECK(json["original"]["lab"][0].get<double>() == known.original.lab.L);
        CHECK(json["repair"]["region"][2].get<int>() == scene.repair.region.width);
        CHECK(json["card"]["corners"][2][1].get<double>() == scene.card->corners[2].y);
        CHECK(json["lamp"]["name"] == "CIE-D65");
        CHECK(json["camera"]["number"].get<std::uint64_t>() == scene.camera.number);
    }
}

TEST_CASE("JPEG holds 8 bits whatever was asked") {
    const ScratchFolder scratch;
    write_practice(make_scene(small_written_picture()), scratch / "a.JPG");
    CHECK(read_picture(scratch / "a.JPG").type == SampleType::uint8);
}

TEST_CASE("A raw file gives the colour that the camera's own file gives") {
    const ScratchFolder scratch;
    PracticeOptions options = small_written_picture();
    options.noise = 0;
    options.black_level = 0;
    options.grain_strength = 0;
    const PracticeScene scene = make_scene(options);
    write_practice(scene, scratch / "a.dng");
    const Frame raw = read_picture(scratch / "a.dng");
    const Frame own = render(scene);
    REQUIRE(raw.width == own.width);
    // White paper of the card frame, between its window's top edge and its own.
    const PlacedCard& card = *scene.card;
    const PixelRect paper{
        static_cast<int>((card.corners[0].x + card.corners[1].x + card.sheet[0].x + card.sheet[1].x) / 4) - 2,
        static_cast<int>((card.corners[0].y + card.corners[1].y + card.sheet[0].y + card.sheet[1].y) / 4) - 2,
        4, 4};
    double worst = 0;
    for (const PixelRect& region : {scene.original.region, scene.repair.region}) {
        worst = std::max(worst,
                         ciede2000(relative_lab(raw, region, paper), relative_lab(own, region, paper)).value);
    }
    check_tight("raw against the camera's own file, dE2000", worst, 0.05);
}
