// Whatever cannot be read or used is refused with exit status 1 and one line that names the culprit and the
// cure, and nothing is left behind. The rules are this program's own; the files are what comes out of
// cameras, cards and mail in a workshop.
#include <fmt/format.h>
#include <sys/stat.h>

#include "bad_pictures.h"
#include "bench.h"
#include "picture/write_picture.h"
#include "practice/write_practice.h"
#include "record/store/job_store.h"
#include "refusal.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// A sound picture, its regions and its card: each row of a table spoils one thing.
class Workbench {
  public:
    Workbench() { write_practice(scene, picture()); }

    std::string picture() const { return folder / "board.png"; }
    std::vector<std::string> outputs() const {
        return {"--save-picture", folder / "copy.png", "--job", "table", "--store", folder / "jobs.sqlite"};
    }
    /// Refused, and no trace of the copy or the job.
    void check(const std::vector<std::string>& arguments, const std::string& culprit,
               const std::string& cure) const {
        check_refused(run_tonemend(with(arguments, outputs())), culprit, cure);
        CHECK_FALSE(std::filesystem::exists(folder / "copy.png"));
        CHECK_FALSE(std::filesystem::exists(folder / "jobs.sqlite"));
    }
    std::vector<std::string> comparison(const std::string& picture_file) const {
        return compare_arguments(scene, picture_file);
    }
    std::vector<std::string> regions(const std::string& original, const std::string& repair) const {
        return {"compare", picture(), "--original", original, "--repair", repair, "--card", "six-step-card"};
    }
    std::vector<std::string> card_at(const std::string& quad, const std::string& picture_file) const {
        return with(comparison(picture_file), {"--card-at", quad});
    }
    std::string corners() const { return text_of(scene.card->corners); }
    std::string original() const { return text_of(scene.original.region); }

    PracticeScene scene = make_scene(small_picture());
    ScratchFolder folder;
};

/// The first half of a practice picture of this kind.
std::string write_half(const Workbench& bench, const std::string& name) {
    const std::filesystem::path path = bench.folder / name;
    write_practice(bench.scene, path);
    const std::string whole = content_of(path);
    put_content(path, whole.substr(0, whole.size() / 2));
    return path;
}

}  // namespace

TEST_CASE("A picture file that cannot be read is refused in one line, and nothing is written") {
    const Workbench bench;
    const auto file = [&](const std::string& name) -> std::string { return bench.folder / name; };
    put_content(file("empty.jpg"), "");
    put_content(file("diary.jpg"), "Dear diary,\ntoday I stained a table.\n");
    // The first box of a HEIC and of an AVIF file: ISO/IEC 14496-12, 4.3; brands of ISO/IEC 23008-12, annex
    // B.
    const std::string box_size{"\0\0\0\x18", 4}, minor{"\0\0\0\0", 4};
    put_content(file("phone.heic"), box_size + "ftypheic" + minor + "mif1heic" + std::string(3000, '\0'));
    put_content(file("phone.avif"), box_size + "ftypavif" + minor + "mif1avif" + std::string(3000, '\0'));
    write_cmyk_jpeg(file("print.jpg"));
    write_png_with_bad_profile(file("link.png"), ProfileFault::device_link);
    write_png_with_bad_profile(file("cut-profile.png"), ProfileFault::cut_short);
    write_png_with_bad_profile(file("no-profile.png"), ProfileFault::not_a_profile);
    write_png_of_false_size(file("huge.png"));
    struct Row {
        std::string picture, cure;
    };
    const Row rows[] = {
        {file("missing.jpg"), "check the name"},
        {bench.folder.path(), "give a picture file"},
        {file("empty.jpg"), "copy it from the camera again"},
        {write_half(bench, "half.jpg"), "copy it from the camera again"},
        {write_half(bench, "half.png"), "copy it from the camera again"},
        {write_half(bench, "half.tif"), "copy it from the camera again"},
        {write_half(bench, "half.dng"), "copy it from the camera again"},
        {write_half(bench, "half.webp"), "copy it from the camera again"},
        {file("huge.png"), "too short for the size it states"},
        {file("diary.jpg"), "give a JPEG, PNG, TIFF, WebP"},
        {file("phone.heic"), "set the phone to JPEG or raw, or convert it"},
        {file("phone.avif"), "set the phone to JPEG or raw, or convert it"},
        {file("print.jpg"), "RGB"},
        {file("link.png"), "profile"},
        {file("cut-profile.png"), "profile"},
        {file("no-profile.png"), "profile"},
    };
    for (const Row& row : rows) {
        INFO(row.picture);
        bench.check(bench.comparison(row.picture), row.picture, row.cure);
    }
}

TEST_CASE("A region that cannot be read is refused in one line that names its option") {
    const Workbench bench;
    struct Row {
        std::string region, cure;
    };
    const Row rows[] = {
        {"400,400,1,1", "choose one of at least"},
        {"400,400,0,50", "give x,y,width,height"},
        {"400,400,50,0", "give x,y,width,height"},
        {"400,400,-50,50", "give x,y,width,height"},
        {"10,10 60,60 110,110", "give x,y,width,height"},
        {"860,400,50,50", "choose a region inside it"},
        {"400,640,50,50", "choose a region inside it"},
        {"9000,9000,50,50", "choose a region inside it"},
        {"10,10 100,100 100,10 10,100", "give x,y,width,height"},
        {"nan,10,50,50", "give x,y,width,height"},
        {"10,inf,50,50", "give x,y,width,height"},
        {"1e300,10,50,50", "give x,y,width,height"},
        {"10,10,50", "give x,y,width,height"},
        {"here", "give x,y,width,height"},
        {"10,10 20,20", "give x,y,width,height"},
        {"", "give x,y,width,height"},
        {"10,10,50,50\n10,10,50,50", "give x,y,width,height"},
    };
    for (const Row& row : rows) {
        INFO(row.region);
        bench.check(bench.regions(row.region, bench.original()), "--original", row.cure);
        bench.check(bench.regions(bench.original(), row.region), "--repair", row.cure);
    }
    bench.check(bench.regions("-20,10,50,50", bench.original()), "--original", "choose a region inside it");
}

TEST_CASE("Corners of a card that cannot be used are refused in one line that names --card-at") {
    const Workbench bench;
    struct Row {
        std::string quad, cure;
    };
    const Row rows[] = {
        {"-300,20 -100,20 -100,150 -300,150", "inside it"},
        {"800,20 1400,20 1400,420 800,420", "inside it"},
        {"10,10 200,10 10,150 200,150", "give the four corners"},
        {"10,10 200,10 60,40 10,150", "give the four corners"},
        {"10,10 50,10 90,10 130,10", "give the four corners"},
        {"10,10 10,10 10,10 10,10", "give the four corners"},
        {"10,10 200,10 200,150", "give the four corners"},
        {"10,10,200,150", "1 corner, not four; give the four corners"},
        {"10,10 200,10 nan,150 10,150", "give the four corners"},
        {"10,10 11,10 11,11 10,11", "take the picture closer"},
    };
    for (const Row& row : rows) {
        INFO(row.quad);
        bench.check(bench.card_at(row.quad, bench.picture()), "--card-at", row.cure);
    }
}

TEST_CASE("A picture that shows no usable card is refused in one line that says what to do about it") {
    const Workbench bench;
    const auto file = [&](const std::string& name) -> std::string { return bench.folder / name; };
    PracticeOptions options = small_picture();
    options.card_mount = CardMount::absent;
    write_practice(make_scene(options), file("bare.png"));
    bench.check(
        bench.comparison(file("bare.png")), "bare.png",
        "are all four markers in the picture, sharp, at least 30 pixels wide and not mirrored? Or give "
        "the card's corners with --card-at");

    const PixelRect all{0, 0, bench.scene.options.width, bench.scene.options.height};
    write_changed(bench.scene, file("black.png"), [&](Frame& frame) { fill(frame, all, 0); });
    write_changed(bench.scene, file("white.png"), [&](Frame& frame) { fill(frame, all, 65535); });
    write_changed(bench.scene, file("grey.png"), [&](Frame& frame) { fill(frame, all, 30000); });
    bench.check(bench.card_at(bench.corners(), file("black.png")), "black.png", "change the exposure");
    bench.check(bench.card_at(bench.corners(), file("white.png")), "white.png", "change the exposure");
    bench.check(bench.card_at(bench.corners(), file("grey.png")), "grey.png", "choose the right --card");

    // The corners in another order: the steps are not where the card's file puts them.
    const Quad& c = bench.scene.card->corners;
    bench.check(bench.card_at(text_of(Quad{c[1], c[2], c[3], c[0]}), bench.picture()), "board.png",
                "turn the card");
}

TEST_CASE("A clipped region and a black level out of range are refused in one line") {
    const Workbench bench;
    const auto file = [&](const std::string& name) -> std::string { return bench.folder / name; };
    write_changed(bench.scene, file("burnt.png"),
                  [&](Frame& frame) { fill(frame, bench.scene.repair.region, 65535); });
    bench.check(bench.comparison(file("burnt.png")), "--repair", "change the exposure");
    struct Row {
        const char *level, *cure;
    };
    const Row rows[] = {{"-1", "must lie between 0 and 65535"},
                        {"65535", "must lie between 0 and 65535"},
                        {"1e9", "must lie between 0 and 65535"},
                        {"nan", "must lie between 0 and 65535"},
                        {"inf", "must lie between 0 and 65535"},
                        {"dark", "give 'auto' or"},
                        {"16x", "give 'auto' or"},
                        {"", "give 'auto' or"}};
    for (const Row& row : rows) {
        INFO(row.level);
        bench.check(with(bench.comparison(bench.picture()), {"--black-level", row.level}), "--black-level",
                    row.cure);
    }
    // A black level above the card's darkest step.
    bench.check(with(bench.comparison(bench.picture()), {"--black-level", "40000"}), "board.png",
                "--black-level");
}

TEST_CASE("An output that cannot be written is refused in one line, before anything is written") {
    const Workbench bench;
    const auto file = [&](const std::string& name) -> std::string { return bench.folder / name; };
    put_content(file("note"), "a file where a folder should be");
    const std::string photograph = content_of(bench.picture());
    struct Row {
        std::string copy, culprit, cure;
    };
    const Row rows[] = {{file("copy.jpg"), file("copy.jpg"), ".png"},
                        {file("copy"), file("copy"), ".png"},
                        {file("none/copy.png"), file("none/copy.png"), "folder"},
                        {file("note/copy.png"), file("note/copy.png"), "folder"},
                        {bench.picture(), bench.picture(), "another name"}};
    for (const Row& row : rows) {
        INFO(row.copy);
        check_refused(
            run_tonemend(with(bench.comparison(bench.picture()), {"--save-picture", row.copy, "--job",
                                                                  "table", "--store", file("jobs.sqlite")})),
            row.culprit, row.cure);
        CHECK_FALSE(std::filesystem::exists(file("copy.png")));
        CHECK_FALSE(std::filesystem::exists(file("copy.jpg")));
        CHECK_FALSE(std::filesystem::exists(file("jobs.sqlite")));
    }
    CHECK(content_of(bench.picture()) == photograph);
    CHECK(content_of(file("note")) == "a file where a folder should be");
}

TEST_CASE("A reading that no store takes is printed all the same, then one line says why; no copy is left") {
    const Workbench bench;
    const auto file = [&](const std::string& name) -> std::string { return bench.folder / name; };
    put_content(file("note"), "a file where a folder should be");
    put_content(file("seat.sqlite"), std::string(5000, 'x'));
    std::filesystem::create_directories(file("old"));
    {
        JobStore newer({file("newer.sqlite"), {}}, StoreUse::keeping);
        newer.parts().database->execute("UPDATE store_info SET value = '99' WHERE key = 'version'");
    }
    struct Row {
        std::string job, store, culprit, cure;
    };
    const Row rows[] = {{"table", file("note/jobs.sqlite"), file("note"), "--store"},
                        {"table", "/proc/none/jobs.sqlite", "/proc/none", "--store"},
                        {"table", file("seat.sqlite"), file("seat.sqlite"), "no store of jobs"},
                        {"table", file("newer.sqlite"), file("newer.sqlite"), "update the program"},
                        {"table", "postgresql:///none?host=/none", "postgresql://", "does the server run"},
                        {file("old"), file("jobs.sqlite"), file("old"), "tonemend job import"}};
    for (const Row& row : rows) {
        INFO(row.job << " " << row.store);
        const CommandResult result =
            run_tonemend(with(bench.comparison(bench.picture()), {"--save-picture", file("copy.png"), "--job",
                                                                  row.job, "--store", row.store, "--json"}));
        CHECK(result.status == 1);
        CHECK(nlohmann::json::parse(result.out)["schema"] == "tonemend.comparison/1");
        check_refused({result.status, "", result.err}, row.culprit, row.cure);
        CHECK_FALSE(std::filesystem::exists(file("copy.png")));
    }
    CHECK(content_of(file("note")) == "a file where a folder should be");
    CHECK(content_of(file("seat.sqlite")) == std::string(5000, 'x'));
}
