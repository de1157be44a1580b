// What a job keeps of the light beside each reading, and what compare says of it later. The contract
// is this program's own.
#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "practice/render.h"
#include "tests/catch.h"
#include "tests/cli/bench.h"
#include "tests/cli/kept_job.h"
#include "tests/cli/refusal.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/wood_card.h"

using namespace tonemend;
using namespace tonemend::testing;
using Json = nlohmann::json;

namespace {

/// One pair under one lamp, pictured by a camera whose white balance is held.
struct LitJob {
    PracticeOptions options() const {
        PracticeOptions all = small_picture();
        all.white_balance = WhiteBalance::daylight;
        all.pair_lamp = "CIE-D65";
        all.exposure = 0.85;
        return all;
    }
    /// Keeps a reading of the scene as `change` makes it, and returns what was printed.
    template <typename Change>
    Json keep(const char* name, Change change, const std::vector<std::string>& more = {}) const {
        PracticeOptions changed = options();
        change(changed);
        const PracticeScene scene = make_scene(changed);
        write_picture(render(scene), folder / name);
        return compare_json(
            with(with(compare_arguments(scene, folder / name), keeping_in(folder.path())), more));
    }
    Json kept(std::size_t number) const { return KeptJob(folder.path()).json(number - 1); }

    ScratchFolder folder;
};

std::vector<std::string> codes(const Json& comparison) {
    std::vector<std::string> found;
    for (const Json& warning : comparison["warnings"])
        if (warning["code"] == "light-changed" || warning["code"] == "exposure-differs")
            found.push_back(warning["code"]);
    return found;
}

const auto as_it_is = [](PracticeOptions&) {};

}  // namespace

TEST_CASE("Another lamp or exposure than in the job's reading before is said in output, JSON and copy") {
    const LitJob job;
    CHECK(codes(job.keep("one.png", as_it_is)).empty());
    CHECK(codes(job.keep("two.png", [](PracticeOptions& options) { options.noise = 1.01; })).empty());
    const Json warm = job.keep("three.png", [](PracticeOptions& options) { options.lamp = "daylight:5000"; });
    CHECK(codes(warm) == std::vector<std::string>{"light-changed"});
    CHECK(codes(job.kept(3)) == codes(warm));
    for (const Json& warning : warm["warnings"])
        if (warning["code"] == "light-changed")
            CHECK_THAT(warning["text"].get<std::string>(), contains("not as in reading 2: the light"));
    // The reading before it is under the same lamp.
    CHECK(codes(job.keep("four.png", [](PracticeOptions& options) {
              options.lamp = "daylight:5000";
          })).empty());
    const Json dark = job.keep("five.png", [](PracticeOptions& options) {
        options.lamp = "daylight:5000";
        options.exposure = 0.6;
    });
    CHECK(codes(dark) == std::vector<std::string>{"exposure-differs"});
    // One line more in the annotated copy makes it higher.
    KeptJob kept(job.folder.path());
    const auto height = [&](std::size_t number) {
        return read_picture(kept.store.picture(kept.readings.at(number - 1).annotated), "annotated").height;
    };
    CHECK(height(5) > height(4));
    // And for people.
    const CommandResult said = run_tonemend(with(
        compare_arguments(make_scene(job.options()), job.folder / "one.png"), keeping_in(job.folder.path())));
    CHECK_THAT(said.out, contains("not as in reading 5: the light") && contains("(light-changed)"));
    CHECK(said.status == 0);
}

TEST_CASE("Of a reading that an older program kept no light is known, and nothing is said of it") {
    const LitJob job;
    (void)job.keep("one.png", as_it_is);
    Json old = job.kept(1);
    REQUIRE(old.erase("picture_light") == 1);
    REQUIRE(old["frame"].erase("stated") == 1);
    JobStore(StoreLocation{job.folder / "jobs.sqlite", {}}, StoreUse::keeping)
        .parts()
        .database->execute("UPDATE readings SET text = ?", {old.dump()});
    CHECK(
        codes(job.keep("two.png", [](PracticeOptions& options) { options.lamp = "daylight:5000"; })).empty());
    CHECK(job.kept(2).contains("picture_light"));
}

TEST_CASE("A job keeps what was stated with the reading: light, colourants, black level and samples") {
    const LitJob job;
    const PracticeScene scene = make_scene(job.options());
    const std::string sample = text_of(scene.original.region) + "=45,12,20";
    (void)job.keep("one.png", as_it_is,
                   {"--light", "led:4000", "--colourants", "same", "--black-level", "3", "--sample", sample});
    const Json stated = job.kept(1)["frame"]["stated"];
    CHECK(stated["light"] == "led:4000");
    CHECK(stated["colourants"] == "same");
    CHECK(stated["black_level"] == 3);
    CHECK(stated["samples"] == Json{sample});
    (void)job.keep("two.png", as_it_is);
    const Json nothing = job.kept(2)["frame"]["stated"];
    CHECK(nothing["light"].is_null());
    CHECK(nothing["black_level"].is_null());
    CHECK_FALSE(nothing.contains("samples"));
}

TEST_CASE("A job keeps under which further lights the scene was read, and in which pictures") {
    const LitJob job;
    const WoodCard card{6};
    PracticeOptions options = job.options();
    options.card = card.path();
    options.white_balance = WhiteBalance::automatic;
    const PracticeScene scene = make_scene(options);
    write_picture(render(scene), job.folder / "day.tif");
    options.lamp = "CIE-A";
    write_picture(render(make_scene(options)), job.folder / "bulb.tif");
    auto arguments = compare_arguments(scene, job.folder / "day.tif");
    arguments.back() = card.path();
    (void)compare_json(
        with(with(arguments, keeping_in(job.folder.path())),
             {"--light", "CIE-D65", "--also-under", "CIE-A=" + (job.folder / "bulb.tif").string()}));
    const Json further = job.kept(1)["light"]["further_lights"];
    CHECK(further["lights"] == Json{"CIE-D65", "CIE-A"});
    CHECK(further["pictures"] == Json{"day.tif", "bulb.tif"});
    CHECK(job.kept(1)["frame"]["stated"]["light"] == "CIE-D65");
}
