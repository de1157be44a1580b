// The object that `compare --json` prints, against the contract in DEVELOPERS.md; the arithmetic inside it
// against CIE 15:2018, 8.2 (CIELAB differences) and ISO/CIE 11664-6:2014 (CIEDE2000), whose implementation
// has tests of its own.
#include <fmt/format.h>

#include <cmath>
#include <set>

#include "bench.h"
#include "colour/difference.h"
#include "practice/write_practice.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;
using Json = nlohmann::json;

namespace {

std::set<std::string> keys(const Json& object) {
    REQUIRE(object.is_object());
    std::set<std::string> found;
    for (const auto& [key, value] : object.items()) found.insert(key);
    return found;
}

using Names = std::set<std::string>;

Lab lab_of(const Json& three) {
    return {three[0], three[1], three[2]};
}

void check_triple(const Json& value) {
    REQUIRE(value.is_array());
    REQUIRE(value.size() == 3);
    for (const Json& number : value) CHECK(number.is_number());
}

void check_reading(const Json& reading, const PixelRect& region) {
    CHECK(keys(reading) ==
          Names{"lab", "lab_u95", "ground", "figure", "figure_share", "pixels", "rejected", "blank_de2000"});
    for (const char* key : {"lab", "lab_u95", "ground", "figure"}) check_triple(reading[key]);
    for (const Json& half_width : reading["lab_u95"]) CHECK(half_width > 0);
    CHECK(reading["lab"][0] > 0);
    CHECK(reading["lab"][0] < 100);
    CHECK(reading["figure_share"].is_number());
    CHECK(reading["figure_share"] >= 0);
    CHECK(reading["figure_share"] < 1);
    CHECK(reading["blank_de2000"] >= 0);
    CHECK(keys(reading["rejected"]) == Names{"clipped", "glare"});
    REQUIRE(reading["pixels"].is_number_unsigned());
    REQUIRE(reading["rejected"]["clipped"].is_number_unsigned());
    REQUIRE(reading["rejected"]["glare"].is_number_unsigned());
    const long long all = reading["pixels"].get<long long>() +
                          reading["rejected"]["clipped"].get<long long>() +
                          reading["rejected"]["glare"].get<long long>();
    CHECK(all == static_cast<long long>(region.width) * region.height);
}

/// What the verdict's definition makes of the printed numbers.
std::string verdict_of(double de, double u, double tolerance) {
    if (de + u <= tolerance) return "match";
    if (de - u > 2 * tolerance) return "off";
    return u > tolerance ? "undecided" : "close";
}

void check_differences(const Json& json) {
    const Json& d = json["difference"];
    CHECK(keys(d) ==
          Names{"de2000", "de2000_u95", "dL", "da", "db", "dC", "dH", "ground_de2000", "figure_de2000"});
    for (const auto& [key, value] : d.items()) CHECK(value.is_number());
    const Lab original = lab_of(json["original"]["lab"]), repair = lab_of(json["repair"]["lab"]);
    // Every number is printed to four decimals: half a unit each way on both sides of a difference.
    constexpr double printed = 1.01e-4;
    CHECK(d["dL"].get<double>() == Approx(repair.L - original.L).margin(printed));
    CHECK(d["da"].get<double>() == Approx(repair.a - original.a).margin(printed));
    CHECK(d["db"].get<double>() == Approx(repair.b - original.b).margin(printed));
    CHECK(d["dC"].get<double>() ==
          Approx(std::hypot(repair.a, repair.b) - std::hypot(original.a, original.b)).margin(2 * printed));
    const double across = original.a * repair.b - repair.a * original.b;
    CHECK(std::signbit(d["dH"].get<double>()) == std::signbit(across));
    CHECK(std::hypot(d["dC"].get<double>(), d["dH"].get<double>()) ==
          Approx(std::hypot(d["da"].get<double>(), d["db"].get<double>())).margin(2 * printed));
    CHECK(d["de2000"].get<double>() == Approx(ciede2000(original, repair).value).margin(2 * printed));
    CHECK(d["ground_de2000"].get<double>() ==
          Approx(ciede2000(lab_of(json["original"]["ground"]), lab_of(json["repair"]["ground"])).value)
              .margin(2 * printed));
    CHECK(d["figure_de2000"].get<double>() ==
          Approx(ciede2000(lab_of(json["original"]["figure"]), lab_of(json["repair"]["figure"])).value)
              .margin(2 * printed));
    CHECK(d["de2000_u95"] > 0);
    CHECK(json["verdict"] == verdict_of(d["de2000"], d["de2000_u95"], json["tolerance"]));
}

void check_direction(const Json& json) {
    REQUIRE(json["direction"].is_array());
    const Json& d = json["difference"];
    double before = 1e9;
    for (const Json& step : json["direction"]) {
        CHECK(keys(step) == Names{"move", "amount", "gain_de2000"});
        CHECK(step["amount"] > 0);
        CHECK(step["gain_de2000"] > 0);
        CHECK(step["gain_de2000"] <= before);
        before = step["gain_de2000"];
        // A move undoes repair minus original along its own axis.
        const std::string move = step["move"];
        const bool downward = move == "darken" || move == "greenen" || move == "blue";
        const bool upward = move == "lighten" || move == "redden" || move == "yellow";
        CHECK((downward || upward));
        const char* axis = move == "darken" || move == "lighten"   ? "dL"
                           : move == "redden" || move == "greenen" ? "da"
                                                                   : "db";
        CHECK(step["amount"].get<double>() ==
              Approx((downward ? 1 : -1) * d[axis].get<double>()).margin(1e-9));
    }
}

void check_contract(const Json& json, const PracticeScene& scene) {
    CHECK(keys(json) == Names{"schema", "original", "repair", "difference", "direction", "verdict",
                              "tolerance", "light", "warnings"});
    CHECK(json["schema"] == "tonemend.comparison/1");
    check_reading(json["original"], scene.original.region);
    check_reading(json["repair"], scene.repair.region);
    check_differences(json);
    check_direction(json);
    const Json& light = json["light"];
    CHECK(keys(light) ==
          Names{"card", "white_xyz", "tone_curve", "characterisation", "flat_field", "further_lights"});
    for (const char* key : {"card", "tone_curve", "characterisation"}) {
        CHECK(light[key].is_string());
        CHECK_FALSE(light[key].get<std::string>().empty());
    }
    check_triple(light["white_xyz"]);
    CHECK(light["white_xyz"][1] == 1.0);
    REQUIRE(json["warnings"].is_array());
    for (const Json& warning : json["warnings"]) {
        CHECK(keys(warning) == Names{"code", "text", "unfit"});
        CHECK(warning["unfit"].is_boolean());
        const std::string code = warning["code"], text = warning["text"];
        CHECK_FALSE(code.empty());
        CHECK(code.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == code.npos);
        CHECK(text.find('\n') == text.npos);
        CHECK(text.find("; ") + text.find(": ") < 2 * text.npos);  // what was found, and the cure
    }
}

}  // namespace

TEST_CASE("compare --json prints one object that keeps every clause of its contract") {
    const ScratchFolder folder;
    for (const std::uint64_t seed : {3u, 4u, 5u, 6u}) {
        const PracticeScene scene = make_scene(small_picture(seed));
        write_practice(scene, folder / "board.png");
        INFO("seed " << seed);
        const Json json = compare_json(compare_arguments(scene, folder / "board.png"));
        check_contract(json, scene);
        CHECK(json["tolerance"] == 1.0);
        CHECK(json["light"]["card"] == "six-step-card");
    }
}

TEST_CASE("The tolerance is the user's, is printed, and moves the verdict") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    write_practice(scene, folder / "board.png");
    const auto arguments = compare_arguments(scene, folder / "board.png");
    const Json strict = compare_json(with(arguments, {"--tolerance", "0.5"}));
    const Json lax = compare_json(with(arguments, {"--tolerance", "8"}));
    check_contract(strict, scene);
    check_contract(lax, scene);
    CHECK(strict["tolerance"] == 0.5);
    CHECK(lax["tolerance"] == 8.0);
    CHECK(strict["verdict"] == "off");
    CHECK(lax["verdict"] == "match");
    CHECK(strict["difference"] == lax["difference"]);
}

TEST_CASE("The first move is the one that the true colours ask for") {
    // The truth is the bench's spectral colour; the gain of a move is the definition: ΔE2000 without that
    // difference.
    const ScratchFolder folder;
    int decided = 0, darken = 0, lighten = 0;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        const PracticeScene scene = make_scene(small_picture(seed));
        const Truth known = write_practice(scene, folder / "board.png");
        const Lab o = known.original.lab, r = known.repair.lab;
        const double now = ciede2000(o, r).value;
        const std::pair<double, std::string> moves[] = {
            {now - ciede2000(o, {o.L, r.a, r.b}).value, r.L > o.L ? "darken" : "lighten"},
            {now - ciede2000(o, {r.L, o.a, r.b}).value, r.a > o.a ? "greenen" : "redden"},
            {now - ciede2000(o, {r.L, r.a, o.b}).value, r.b > o.b ? "blue" : "yellow"}};
        std::vector<std::pair<double, std::string>> ranked(std::begin(moves), std::end(moves));
        std::sort(ranked.rbegin(), ranked.rend());
        if (ranked[0].first - ranked[1].first < 0.3) continue;  // too close to call
        ++decided;
        darken += ranked[0].second == "darken", lighten += ranked[0].second == "lighten";
        INFO("seed " << seed);
        const Json json = compare_json(compare_arguments(scene, folder / "board.png"));
        REQUIRE_FALSE(json["direction"].empty());
        CHECK(json["direction"][0]["move"] == ranked[0].second);
    }
    CHECK(decided >= 6);
    CHECK(darken >= 2);
    CHECK(lighten >= 2);
}

TEST_CASE("A region of which more than a twentieth is clipped is printed as unfit, with exit status 3") {
    const ScratchFolder folder;
    const PracticeScene scene = make_scene(small_picture());
    struct Row {
        double share;
        int status;
    };
    for (const Row& row : {Row{0.04, 0}, Row{0.06, 3}}) {
        PixelRect strip = scene.repair.region;
        strip.height = static_cast<int>(std::lround(strip.height * row.share));
        write_changed(scene, folder / "burnt.png", [&](Frame& frame) { fill(frame, strip, 65535); });
        INFO(row.share);
        const auto arguments = compare_arguments(scene, folder / "burnt.png");
        const Json json = compare_json(arguments, row.status);
        check_contract(json, scene);
        CHECK(json["repair"]["rejected"]["clipped"] == strip.width * strip.height);
        bool said = false, unfit = false;
        for (const Json& warning : json["warnings"]) {
            said = said || warning["code"] == "region-clipped";
            unfit = unfit || warning["unfit"];
        }
        CHECK(said);
        CHECK(unfit == (row.status == 3));
        const CommandResult summary = run_tonemend(arguments);
        CHECK(summary.status == row.status);
        CHECK((summary.out.find("UNFIT") != std::string::npos) == (row.status == 3));
    }
}
