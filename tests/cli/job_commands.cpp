// `tonemend job` as a restorer uses it, from the first line to the backup. The contract is this program's
// own; what it exports is read back by others.
#include <lcms2.h>
#include <sys/stat.h>

#include <cstdlib>
#include <exiv2/exiv2.hpp>

#include "bench.h"
#include "calibrate/card/cgats.h"
#include "kept_job.h"
#include "practice/write_practice.h"
#include "refusal.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// A shop with a store of its own and one picture.
struct Shop {
    Shop() {
        write_practice(scene, folder / "board.png");
        write_practice(scene, folder / "board.jpg");
    }
    /// `tonemend job …`, which must end with `status`.
    std::string job(std::vector<std::string> words, int status = 0) const {
        words.insert(words.begin(), "job");
        const CommandResult result = run_tonemend(with(words, {"--store", folder / "jobs.sqlite"}));
        INFO(result.out << result.err);
        CHECK(result.status == status);
        return status == 0 ? result.out : result.err;
    }
    std::vector<std::string> taking(const char* role, const char* picture) const {
        std::vector<std::string> words = compare_arguments(scene, folder / picture);
        words.erase(words.begin());
        words.insert(words.begin(), {role, "chapel bench"});
        return words;
    }
    mode_t mode(const std::string& name) const {
        struct stat facts {};
        REQUIRE(stat((folder / name).c_str(), &facts) == 0);
        return facts.st_mode & 0777;
    }

    PracticeScene scene = make_scene(small_picture());
    ScratchFolder folder;
};

}  // namespace

TEST_CASE("A job from start to hand-over: coats, before and after, search, close, undo, another's recipe") {
    const Shop shop;
    CHECK_THAT(shop.job({"list"}, 1), contains("no such store"));  // one that was named must be there
    CHECK_THAT(shop.job({"start", "Chapel bench", "--piece", "bench", "--wood", "oak", "--area", "left arm"}),
               contains("job 1 'Chapel bench' is started: bench, area left arm"));
    CHECK_THAT(shop.job(shop.taking("before", "board.png")), contains("as reading 1"));
    CHECK_THAT(shop.job({"coat", "1", "--kind", "dye", "--colourant", "Walnut 4", "--dilution", "2:1",
                         "--wait", "45"}),
               contains("step 1  dye 'Walnut 4', thinned 2:1, dry after 45 minutes   done"));
    CHECK_THAT(shop.job({"coat", "1", "--kind", "paint"}, 1), contains("choose one of sand, bleach, dye"));
    CHECK_THAT(shop.job({"coat", "1", "--kind", "dye", "--dilution", "thin"}, 1), contains("such as 2:1"));
    CHECK_THAT(shop.job(shop.taking("after", "board.jpg")), contains("as reading 2") &&
                                                                contains("before, reading 1: ΔE2000") &&
                                                                contains("the repair moved"));
    CHECK_THAT(shop.job({"original", "1", shop.folder / "board.png", "--region",
                         text_of(shop.scene.original.region), "--card", "six-step-card"}),
               contains("the original in reading 1") && contains("ΔE2000 0.0"));
    const std::string shown = shop.job({"show", "chapel BENCH"});
    CHECK_THAT(shown, contains("bench, oak") && contains("left arm") &&
                          contains("before, reading 1, and after, reading 2"));
    CHECK_THAT(shop.job({"list", "--wood", "OAK"}), contains("Chapel bench"));
    CHECK_THAT(shop.job({"list", "--colourant", "walnut"}), contains("2 readings"));
    CHECK_THAT(shop.job({"list", "--piece", "table"}), contains("no job is like that"));

    CHECK_THAT(shop.job({"add-area", "1", "right arm"}), contains("area right arm"));
    CHECK_THAT(shop.job({"add-piece", "1", "kneeler", "--wood", "elm"}), contains("piece kneeler"));
    CHECK_THAT(shop.job({"add-area", "1", "foot", "--piece", "table"}, 1), contains("no piece 'table'"));
    shop.job({"start", "Chest"});
    CHECK_THAT(shop.job({"copy-recipe", "1", "chest", "--from-area", "left arm"}), contains("planned"));
    CHECK_THAT(shop.job({"done", "chest", "1"}), contains("done"));
    CHECK_THAT(shop.job({"done", "chest", "1"}, 1), contains("done already"));
    CHECK_THAT(shop.job({"done", "chest", "7"}, 1), contains("no step 7"));
    CHECK_THAT(shop.job({"undo", "chest"}), contains("doing step 1"));
    CHECK_THAT(shop.job({"close", "1"}), contains("closed"));
    CHECK_THAT(shop.job({"list", "--open"}), contains("Chest") && !contains("Chapel"));
    CHECK_THAT(shop.job({"open", "1"}), contains("is open"));
    CHECK_THAT(shop.job({"show", "table"}, 1), contains("tonemend job list"));
    CHECK_THAT(shop.job({"coat", "1", "--kind", "dye", "--area", "leg"}, 1), contains("left arm"));
    CHECK_THAT(shop.job({"verify"}), contains("all whole"));
    CHECK_THAT(shop.job({"report", "1"}, 1), contains("--html FILE"));
    CHECK_THAT(shop.job({"report", "1", "--pdf", shop.folder / "r.pdf", "--paper", "papyrus"}, 1),
               contains("a4"));
    shop.job({"report", "1", "--html", shop.folder / "r.html", "--pdf", shop.folder / "r.pdf", "--paper",
              "letter"});
    CHECK_THAT(content_of(shop.folder / "r.html"), contains("Chapel bench") && contains("Walnut 4"));
    CHECK(content_of(shop.folder / "r.pdf").starts_with("%PDF-"));
    CHECK(shop.mode("r.html") == 0600);
}

TEST_CASE("A second light's result is kept with the job") {
    const Shop shop;
    PracticeOptions options = shop.scene.options;
    options.lamp = "CIE-A";
    write_practice(make_scene(options), shop.folder / "bulb.png");
    const CommandResult result =
        run_tonemend(with({"second-light", shop.folder / "board.png", shop.folder / "bulb.png", "--original",
                           text_of(shop.scene.original.region), "--repair", text_of(shop.scene.repair.region),
                           "--card", "six-step-card"},
                          keeping_in(shop.folder.path(), "chest")));
    INFO(result.err);
    CHECK_THAT(result.out, contains("kept in job 1 ('chest')"));
    KeptJob job(shop.folder.path(), "chest");
    const auto kept = job.store.comparisons(job.area.uid);
    REQUIRE(kept.size() == 1);
    CHECK(nlohmann::json::parse(kept[0].text)["schema"] == "tonemend.second-light/1");
}

TEST_CASE("What a store holds goes out and comes back; others read it; it is its owner's alone") {
    const Shop shop;
    shop.job({"start", "Chapel bench", "--client", "A. Person"});
    shop.job(shop.taking("before", "board.png"));
    shop.job(shop.taking("after", "board.jpg"));
    const auto at = [&](const char* name) -> std::string { return shop.folder / name; };
    shop.job({"export", at("all.json")});
    shop.job({"export", at("csv"), "--as", "csv"});
    shop.job({"export", at("readings.txt"), "--job", "1"});
    shop.job({"export", at("pictures"), "--as", "pictures", "--job", "1"});
    CHECK_THAT(shop.job({"export", at("unknown.xyz")}, 1), contains("--as csv"));
    CHECK_THAT(shop.job({"export", at("r.txt")}, 1), contains("--job"));
    for (const char* file : {"jobs.sqlite", "all.json", "csv/readings.csv"}) CHECK(shop.mode(file) == 0600);
    for (const char* folder : {"jobs.sqlite.pictures", "all.json.pictures", "csv", "pictures"})
        CHECK(shop.mode(folder) == 0700);

    // The JSON against the schema in the repository, by the registry's own validator of JSON Schema.
    const std::string validate =
        "python3 -c 'import json,sys,jsonschema; jsonschema.validate(json.load(open(sys.argv[1])), "
        "json.load(open(sys.argv[2])))' " +
        at("all.json") + " " TONEMEND_SOURCE_DIR "/src/record/export/jobs.schema.json";
    CHECK(std::system(validate.c_str()) == 0);

    // CGATS by Little CMS's own reader, and by ours.
    const cmsHANDLE table = cmsIT8LoadFromFile(nullptr, at("readings.txt").c_str());
    REQUIRE(table != nullptr);
    CHECK(cmsIT8GetPropertyDbl(table, "NUMBER_OF_SETS") == 4);
    KeptJob job(shop.folder.path(), "Chapel bench");
    CHECK(cmsIT8GetDataRowColDbl(table, 3, 2) == Approx(job.readings[1].repair.L).margin(1e-4));
    cmsIT8Free(table);
    const CgatsTable ours = read_cgats(at("readings.txt"));
    CHECK(ours.number(3, ours.column("LAB_DE_2000")) == Approx(job.readings[1].de2000).margin(1e-4));

    // Pictures with profile and words, by Exiv2.
    for (const char* name : {"pictures/job-1-reading-1.png", "pictures/job-1-reading-2.jpg",
                             "pictures/job-1-reading-1-annotated.png"}) {
        INFO(name);
        const auto image = Exiv2::ImageFactory::open(at(name));
        image->readMetadata();
        CHECK(image->iccProfileDefined());
        CHECK_THAT(image->xmpData()["Xmp.dc.description"].toString(), contains("Job 1, reading"));
        CHECK(image->exifData()["Exif.Photo.DateTimeDigitized"].toString().size() == 19);
    }
    CHECK_THAT(content_of(shop.folder / "csv/overview.csv"), contains("Chapel bench") && contains(",off"));

    // Backup, restore, copy, import: all the same text again.
    shop.job({"backup", at("jobs.backup")});
    CHECK(shop.mode("jobs.backup") == 0600);
    CHECK_THAT(shop.job({"backup", at("jobs.backup")}, 1), contains("is there already"));
    shop.job({"copy", at("copied.sqlite")});
    const auto other = [&](std::vector<std::string> words, const char* store) {
        words.insert(words.begin(), "job");
        const CommandResult result = run_tonemend(with(words, {"--store", at(store)}));
        INFO(result.err);
        CHECK(result.status == 0);
    };
    other({"restore", at("jobs.backup")}, "restored.sqlite");
    other({"import", at("all.json")}, "imported.sqlite");
    for (const char* store : {"restored.sqlite", "imported.sqlite", "copied.sqlite"}) {
        INFO(store);
        other({"export", at("again.json")}, store);
        CHECK(content_of(at("again.json")) == content_of(at("all.json")));
        other({"verify"}, store);
    }
    check_refused(run_tonemend({"job", "import", at("board.png"), "--store", at("x.sqlite")}), "board.png",
                  "copy");
    check_refused(run_tonemend({"job", "restore", at("board.png"), "--store", at("x.sqlite")}), "board.png",
                  "store");

    // A picture that is gone is found, and named.
    const VaultName picture{job.readings[0].source, "png"};
    std::filesystem::remove(
        shop.folder / ("jobs.sqlite.pictures/" + picture.hash.substr(0, 2) + "/" + picture.hash + ".png"));
    const CommandResult found = run_tonemend({"job", "verify", "--store", at("jobs.sqlite")});
    CHECK(found.status == 1);
    CHECK_THAT(found.out, contains(picture.hash) && contains("is missing"));
    CHECK_THAT(found.err, contains("tonemend job rescue"));
}

TEST_CASE("A store that is cut short is rescued into a new one, with a list of what is lost") {
    const Shop shop;
    shop.job({"start", "Chapel bench"});
    for (int i = 0; i < 3; ++i) shop.job(shop.taking("before", "board.png"));
    const std::string damaged = shop.folder / "jobs.sqlite", saved = shop.folder / "saved.sqlite";
    const auto size = std::filesystem::file_size(damaged);
    std::filesystem::resize_file(damaged, size - 4096);
    const CommandResult result = run_tonemend({"job", "rescue", damaged, saved});
    INFO(result.out << result.err);
    CHECK(result.status == 0);
    CHECK_THAT(result.out, contains("are saved in"));
    CHECK(std::filesystem::exists(saved + ".losses.txt"));
    CHECK(run_tonemend({"job", "verify", "--store", saved}).status == 0);
    CHECK(run_tonemend({"job", "rescue", damaged, saved}).status == 1);  // it is there already
}
