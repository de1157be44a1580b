// What compare leaves behind and what it says to a person: the annotated copy, the job, the terminal summary.
#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "bench.h"
#include "kept_job.h"
#include "picture/read_picture.h"
#include "practice/write_practice.h"
#include "refusal.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;
using Json = nlohmann::json;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// Columns on a terminal: UTF-8 code points, none of those used here being wide or combining.
std::size_t display_width(const std::string& line) {
    return static_cast<std::size_t>(std::count_if(
        line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
}

struct Board {
    Board() { write_practice(scene, picture()); }
    std::string picture() const { return folder / "board.png"; }
    std::vector<std::string> arguments() const { return compare_arguments(scene, picture()); }

    PracticeScene scene = make_scene(small_picture());
    ScratchFolder folder;
};

std::vector<std::string> names_in(const std::filesystem::path& folder) {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        names.push_back(entry.path().filename());
    std::sort(names.begin(), names.end());
    return names;
}

}  // namespace

TEST_CASE("Option --save-picture writes a PNG of the picture's width with the panel below it") {
    const Board board;
    const std::string copy = board.folder / "copy.png";
    const CommandResult result = run_tonemend(with(board.arguments(), {"--save-picture", copy}));
    REQUIRE(result.status == 0);
    CHECK(content_of(copy).starts_with("\x89PNG"));
    const Frame read = read_picture(copy);
    CHECK(read.width == board.scene.options.width);
    CHECK(read.height > board.scene.options.height + 100);
    CHECK(read.height < 2.1 * board.scene.options.height);
    CHECK(names_in(board.folder.path()) ==
          std::vector<std::string>{"board.png", "board.png.truth.json", "copy.png"});
    // Once more over itself: replaced, not refused.
    CHECK(run_tonemend(with(board.arguments(), {"--save-picture", copy})).status == 0);
}

TEST_CASE("Option --job keeps every reading with its picture, numbered, and --json still prints one object") {
    const Board board;
    const auto arguments = with(board.arguments(), keeping_in(board.folder.path()));
    const CommandResult first = run_tonemend(arguments);
    REQUIRE(first.status == 0);
    CHECK_THAT(first.out, contains("kept in job 1 ('table') as reading 1, a new job"));
    const Json printed = compare_json(arguments);
    KeptJob job(board.folder.path());
    REQUIRE(job.readings.size() == 2);
    Json kept = job.json(1);
    CHECK(kept["picture"] == "board.png");
    // ISO 8601, in UTC.
    CHECK_THAT(kept["taken"].get<std::string>(),
               Catch::Matchers::Matches("20\\d\\d-\\d\\d-\\d\\dT\\d\\d:\\d\\d:\\d\\dZ"));
    for (const char* key : {"picture", "taken", "picture_light", "frame"}) {
        INFO(key);
        CHECK(kept.erase(key) == 1);
    }
    CHECK(kept == printed);
    const auto annotated = job.store.picture(job.readings[0].annotated);
    CHECK(read_picture(annotated, "annotated").width == board.scene.options.width);
    // The picture itself, byte for byte.
    const auto source = job.store.picture(job.readings[0].source);
    CHECK(std::string(reinterpret_cast<const char*>(source.data()), source.size()) ==
          content_of(board.picture()));
    REQUIRE(run_tonemend(with(arguments, {"--without-picture"})).status == 0);
    CHECK(KeptJob(board.folder.path()).readings.at(2).source.empty());
}

TEST_CASE("Comparisons that are kept in one job at the same time all keep their readings") {
    const Board board;
    const auto arguments = with(board.arguments(), keeping_in(board.folder.path()));
    for (const CommandResult& result : run_at_once({arguments, arguments, arguments, arguments})) {
        INFO(result.err);
        CHECK(result.status == 0);
    }
    // The job was not there: only one of the four started it.
    KeptJob job(board.folder.path());
    REQUIRE(job.readings.size() == 4);
    for (int i = 0; i < 4; ++i) CHECK(job.readings[static_cast<std::size_t>(i)].number == i + 1);
    CHECK(job.store.search({}).size() == 1);
}

TEST_CASE("A reading that cannot be printed is refused in one line with status 1") {
    // The device that is always full (Linux, full(4)).
    const Board board;
    for (const std::vector<std::string>& more : {std::vector<std::string>{}, {"--json"}})
        check_refused(run_tonemend_into("/dev/full", with(board.arguments(), more)), "standard output",
                      "check the free space");
}

TEST_CASE("For an unfit reading the summary says UNFIT and why in place of verdict and move") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    PixelRect strip = scene.repair.region;
    strip.height /= 8;
    write_changed(scene, folder / "burnt.png", [&](Frame& frame) { fill(frame, strip, 65535); });
    const auto arguments = compare_arguments(scene, folder / "burnt.png");
    const CommandResult result = run_tonemend(arguments);
    CHECK(result.status == 3);
    INFO(result.out);
    const Json json = compare_json(arguments, 3);
    CHECK(json["verdict"] == "off");  // by the contract
    const auto lines = lines_of(result.out);
    REQUIRE(lines.size() > 4);
    CHECK_THAT(lines[1], contains("   UNFIT, don't work by it"));
    const Json& worst = json["warnings"][0];
    CHECK(worst["unfit"] == true);
    CHECK_THAT(lines[2], contains(worst["text"].get<std::string>()));
    for (const char* unsaid : {"OFF", "Darken", "alone takes", "reading good"})
        CHECK(result.out.find(unsaid) == std::string::npos);
    for (const Json& warning : json["warnings"]) {
        const std::string text = warning["text"];
        CHECK(result.out.find(text) != std::string::npos);
        CHECK(result.out.find(text) == result.out.rfind(text));
    }
}

TEST_CASE(
    "The summary says verdict, next move, three vials of one width and what to mind, without escape codes in "
    "a file") {
    const Board board;
    const CommandResult result = run_tonemend(board.arguments());
    REQUIRE(result.status == 0);
    CHECK(result.err == "");
    CHECK(result.out.find('\x1b') == std::string::npos);
    const Json json = compare_json(board.arguments());
    const auto lines = lines_of(result.out);
    INFO(result.out);
    REQUIRE(lines.size() > 8);
    CHECK_THAT(lines[1], contains(fmt::format("ΔE2000 {:.1f} ± {:.1f}   OFF   (tolerance 1.0)",
                                              json["difference"]["de2000"].get<double>(),
                                              json["difference"]["de2000_u95"].get<double>())));
    CHECK(json["verdict"] == "off");
    CHECK_THAT(lines[2], contains("Darken"));
    std::vector<std::string> vials;
    for (const std::string& line : lines)
        if (line.find("|  darker") != line.npos || line.find("|  redder") != line.npos ||
            line.find("|  yellower") != line.npos)
            vials.push_back(line);
    REQUIRE(vials.size() == 3);
    for (const std::string& vial : vials) {
        CHECK(display_width(vial) == display_width(vials[0]));
        CHECK(display_width(vial) <= 80);
    }
    CHECK_THAT(vials[0], contains("lighter") && contains("L*"));
    CHECK_THAT(vials[1], contains("greener") && contains("a*"));
    CHECK_THAT(vials[2], contains("bluer") && contains("b*"));
    for (const Json& warning : json["warnings"])
        CHECK_THAT(result.out, contains(warning["text"].get<std::string>()));
    for (const char* said : {"original", "repair", "six-step-card", "D50", "95 %"})
        CHECK_THAT(result.out, contains(said));
}
