// tonemend drying, as a user gives it, on stills of the practice bench; and compare --drying.
#include <nlohmann/json.hpp>

#include "drying_stills.h"
#include "refusal.h"
#include "run_command.h"
#include "tests/catch.h"
#include "tests/cli/bench.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::vector<std::string> drying(const ScratchFolder& folder, const DryingStills& stills,
                                const std::vector<std::string>& more = {}, const char* kind = "fast-oil") {
    return with(
        {"drying", folder.path(), "--region", stills.region(), "--card", "six-step-card", "--kind", kind},
        more);
}

nlohmann::json json_of(const CommandResult& result) {
    INFO(result.err);
    REQUIRE(result.status == 0);
    return nlohmann::json::parse(result.out);
}

}  // namespace

TEST_CASE("A folder of stills is followed until settled, with a log that a second run goes on from") {
    const ScratchFolder folder, logs;
    const DryingStills stills;
    const std::string log = logs / "seat.log";
    stills.write_series(folder.path(), 9, 4);
    const auto early = json_of(run_tonemend(drying(folder, stills, {"--log", log, "--json"})));
    CHECK(early["schema"] == "tonemend.drying-report/1");
    CHECK(early["state"] == "settling");
    CHECK(early["readings"] == 9);
    CHECK(early["seen_minutes"] == 32);
    CHECK(early["wait_from"] == "common practice");
    CHECK(early["minutes_to_settle"]["middle"].get<double>() > 3);
    const std::string first_lines = content_of(log);
    for (int i = 9; i < 20; ++i)
        stills.write(folder / (i < 10 ? "0" + std::to_string(i) : std::to_string(i)).append(".png"), 4 * i);
    const CommandResult on = run_tonemend(drying(folder, stills, {"--log", log, "--until-settled"}));
    INFO(on.out << on.err);
    CHECK(on.status == 0);
    CHECK_THAT(on.out, contains("goes on from 9 readings"));
    CHECK_THAT(on.out, contains("SETTLED after "));
    CHECK_THAT(on.out, contains("since wet"));
    CHECK_THAT(on.out, contains("the label's own time comes first"));
    CHECK(content_of(log).starts_with(first_lines));

    // The mark on a comparison, by the time at which its picture was taken.
    const auto compare = [&](const char* still) {
        return compare_json(with(compare_arguments(stills.scene(0), folder / still), {"--drying", log}), 3);
    };
    const auto wet = compare("01.png");
    CHECK(wet["warnings"][0]["code"] == "still-settling");
    CHECK(wet["warnings"][0]["unfit"] == true);
    const auto dry =
        compare_json(with(compare_arguments(stills.scene(0), folder / "19.png"), {"--drying", log}));
    for (const auto& warning : dry["warnings"]) CHECK(warning["code"] != "still-settling");
    check_refused(run_tonemend(drying(folder, stills, {"--log", log}, "glaze")), "seat.log",
                  "--kind fast-oil");
    check_refused(
        run_tonemend({"drying", folder.path(), "--region", "1,1,50,50", "--kind", "fast-oil", "--log", log}),
        "seat.log", "another --log");
}

TEST_CASE("A folder or source that cannot be followed is refused in one line with the cure") {
    const ScratchFolder folder;
    const DryingStills stills;
    check_refused(run_tonemend(drying(folder, stills)), folder.path().string(), "--follow");
    check_refused(run_tonemend({"drying", folder / "none", "--region", "1,1,9,9"}), "none", "check its name");
    check_refused(run_tonemend({"drying", folder.path(), "--region", "1,1,9"}), "--region", "");
    stills.write(folder / "a.png", 0);
    check_refused(run_tonemend({"drying", folder / "a.png", "--region", "1,1,9,9"}), "a.png",
                  "folder of stills");
    check_refused(run_tonemend(drying(folder, stills, {"--log", folder / "no" / "b.log"})), "b.log",
                  "folder");
}

TEST_CASE("Stills that cannot be read are left out with a word, and the others count") {
    const ScratchFolder folder;
    const DryingStills stills;
    stills.write_series(folder.path(), 2, 5);
    put_content(folder / "aa.png", "no picture");
    std::filesystem::last_write_time(folder / "aa.png", std::filesystem::last_write_time(folder / "00.png"));
    const CommandResult result = run_tonemend(drying(folder, stills, {"--json"}));
    CHECK(nlohmann::json::parse(result.out)["readings"] == 2);
    CHECK_THAT(result.err, contains("left out"));
    CHECK_THAT(result.err, contains("aa.png"));
}

TEST_CASE("A live source is read every so often") {
    const CommandResult result = run_tonemend({"drying", "practice", "--region", "600,500,150,150", "--card",
                                               "six-step-card", "--every", "1", "--readings", "2", "--json"});
    INFO(result.err);
    CHECK(json_of(result)["readings"] == 2);
    CHECK(json_of(result)["state"] == "watching");
}

TEST_CASE("The usual waits are listed as common practice that the label goes before") {
    const CommandResult result = run_tonemend({"drying", "--help"});
    CHECK(result.status == 0);
    CHECK_THAT(result.out, contains("the label's own time comes first"));
    CHECK_THAT(result.out, contains("fast-oil"));
}
