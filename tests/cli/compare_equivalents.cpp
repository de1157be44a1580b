// The same board told in other ways gives the same reading: other file formats, the card's corners by hand, a
// polygon for a rectangle. The bounds are the worst of the seeds measured, with little room; each test prints
// its worst.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "bench.h"
#include "colour/difference.h"
#include "practice/write_practice.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;
using Json = nlohmann::json;

namespace {

constexpr std::uint64_t seeds[] = {3, 4, 5, 6};

/// The largest difference between two comparisons' L*, a*, b* of either region.
double apart(const Json& one, const Json& other) {
    double worst = 0;
    for (const char* side : {"original", "repair"})
        for (std::size_t k = 0; k < 3; ++k)
            worst = std::max(
                worst, std::abs(one[side]["lab"][k].get<double>() - other[side]["lab"][k].get<double>()));
    return worst;
}

double de2000_apart(const Json& one, const Json& other) {
    return std::abs(one["difference"]["de2000"].get<double>() - other["difference"]["de2000"].get<double>());
}

Json read_written(const PracticeScene& scene, const std::filesystem::path& path) {
    write_practice(scene, path);
    return compare_json(compare_arguments(scene, path));
}

/// A rectangle's corners as a polygon.
std::string polygon(const PixelRect& r) {
    return fmt::format("{0},{1} {2},{1} {2},{3} {0},{3}", r.x, r.y, r.x + r.width, r.y + r.height);
}

}  // namespace

TEST_CASE("PNG and TIFF of 16 bits give the same numbers, digit for digit") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    const Json png = read_written(scene, folder / "board.png");
    const Json tiff = read_written(scene, folder / "board.tif");
    CHECK(png == tiff);
}

TEST_CASE("A JPEG of quality 90 and a lossless WebP of 8 bits read as the 16-bit picture does") {
    const ScratchFolder folder;
    double worst_jpeg = 0, worst_webp = 0, worst_difference = 0;
    for (const std::uint64_t seed : seeds) {
        const PracticeScene scene = make_scene(small_picture(seed));
        const Json png = read_written(scene, folder / "board.png");
        const Json jpeg = read_written(scene, folder / "board.jpg");
        const Json webp = read_written(scene, folder / "board.webp");
        worst_jpeg = std::max(worst_jpeg, apart(png, jpeg));
        worst_webp = std::max(worst_webp, apart(png, webp));
        worst_difference = std::max({worst_difference, de2000_apart(png, jpeg), de2000_apart(png, webp)});
    }
    fmt::print("8 bits against 16: JPEG {:.3f}, WebP {:.3f} in L*, a*, b*; {:.3f} in the difference\n",
               worst_jpeg, worst_webp, worst_difference);
    CHECK(worst_jpeg < 0.32);
    CHECK(worst_webp < 0.08);
    CHECK(worst_difference < 0.16);
}

TEST_CASE("A raw file reads near the true colours, and nearer the true difference") {
    const ScratchFolder folder;
    double worst_colour = 0, worst_difference = 0;
    for (const std::uint64_t seed : seeds) {
        const PracticeScene scene = make_scene(small_picture(seed));
        const Truth known = write_practice(scene, folder / "board.dng");
        const Json json = compare_json(compare_arguments(scene, folder / "board.dng"));
        for (const auto& [side, truth] :
             {std::pair{"original", known.original.lab}, std::pair{"repair", known.repair.lab}}) {
            const Json& lab = json[side]["lab"];
            worst_colour = std::max(worst_colour, ciede2000({lab[0], lab[1], lab[2]}, truth).value);
        }
        worst_difference =
            std::max(worst_difference, std::abs(json["difference"]["de2000"].get<double>() - known.de2000));
    }
    fmt::print("raw against truth: ΔE2000 {:.3f} a colour, {:.3f} in the difference\n", worst_colour,
               worst_difference);
    CHECK(worst_colour < 0.4);
    CHECK(worst_difference < 0.13);
}

TEST_CASE("The card's corners given by hand read as the card frame that was found does") {
    const ScratchFolder folder;
    double worst = 0;
    for (const std::uint64_t seed : seeds) {
        const PracticeScene scene = make_scene(small_picture(seed));
        write_practice(scene, folder / "board.png");
        const auto arguments = compare_arguments(scene, folder / "board.png");
        const Json found = compare_json(arguments);
        const Json given = compare_json(with(arguments, {"--card-at", text_of(scene.card->corners)}));
        worst = std::max(worst, apart(found, given));
    }
    fmt::print("corners given against frame found: {:.4f} in L*, a*, b*\n", worst);
    CHECK(worst < 0.05);
}

TEST_CASE("A polygon with a rectangle's corners reads as the rectangle, whichever way round it is told") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    write_practice(scene, folder / "board.png");
    const Json rectangle = compare_json(compare_arguments(scene, folder / "board.png"));
    const std::vector<std::string> start{"compare", folder / "board.png", "--card", "six-step-card"};
    const auto with_regions = [&](const std::string& original, const std::string& repair) {
        return compare_json(with(start, {"--original", original, "--repair", repair}));
    };
    const PixelRect& o = scene.original.region;
    const PixelRect& r = scene.repair.region;
    CHECK(with_regions(polygon(o), polygon(r)) == rectangle);
    const std::string other_way_round =
        fmt::format("{0},{1} {0},{3} {2},{3} {2},{1}", o.x, o.y, o.x + o.width, o.y + o.height);
    CHECK(with_regions(other_way_round, text_of(r)) == rectangle);
    const auto spaced = [](const std::string& text) {
        std::string wider;
        for (const char c : text) wider += c == ',' ? ", " : std::string(1, c);
        return wider;
    };
    CHECK(with_regions(spaced(text_of(o)), spaced(polygon(r))) == rectangle);
    // Swapped roles change the signs and nothing else of the difference.
    const Json swapped = with_regions(text_of(r), text_of(o));
    CHECK(swapped["difference"]["de2000"] == rectangle["difference"]["de2000"]);
    CHECK(swapped["difference"]["dL"].get<double>() == -rectangle["difference"]["dL"].get<double>());
}

TEST_CASE("The same command gives the same bytes twice") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    write_practice(scene, folder / "board.png");
    const auto arguments = with(compare_arguments(scene, folder / "board.png"), {"--json"});
    CHECK(run_tonemend(arguments).out == run_tonemend(arguments).out);
}
