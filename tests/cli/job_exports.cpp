// Whatever leaves the store is its owner's alone until the owner says otherwise. The contract is this
// program's own; permissions as chmod(2) and stat(2) say them.
#include <sys/stat.h>

#include "bench.h"
#include "kept_job.h"
#include "practice/write_practice.h"
#include "refusal.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

mode_t permissions_of(const std::filesystem::path& path) {
    struct stat facts {};
    INFO(path);
    REQUIRE(stat(path.c_str(), &facts) == 0);
    return facts.st_mode & 0777;
}

/// A store with one reading whose picture is kept.
struct ExportingShop {
    ExportingShop() {
        write_practice(scene, folder / "board.png");
        const CommandResult result = run_tonemend(
            with(compare_arguments(scene, folder / "board.png"), keeping_in(folder.path(), "table")));
        INFO(result.err);
        REQUIRE(result.status == 0);
    }
    CommandResult write(const std::vector<std::string>& words) const {
        return run_tonemend(with({"job", "export"}, with(words, {"--store", folder / "jobs.sqlite"})));
    }

    PracticeScene scene = make_scene(small_picture());
    ScratchFolder folder;
};

}  // namespace

TEST_CASE("Every export can be read by its owner alone, also in a folder that others may look into") {
    // As most systems set it: without it a file made carelessly would be private by chance.
    const mode_t before = umask(022);
    const struct Restore {
        mode_t mask;
        ~Restore() { umask(mask); }
    } restore{before};
    const ExportingShop shop;
    std::filesystem::create_directories(shop.folder / "shared");
    REQUIRE(chmod((shop.folder / "shared").c_str(), 0755) == 0);
    for (const char* place : {"own", "shared"}) {
        INFO(place);
        const auto at = [&](const char* name) -> std::string {
            return shop.folder / (std::string(place) + name);
        };
        for (const std::vector<std::string>& words :
             std::vector<std::vector<std::string>>{{at(""), "--as", "pictures", "--job", "table"},
                                                   {at(""), "--as", "csv"},
                                                   {at("/readings.txt"), "--job", "table"},
                                                   {at("/readings.dat"), "--as", "cgats", "--job", "table"},
                                                   {at("/all.json")}}) {
            const CommandResult result = shop.write(words);
            INFO(result.err);
            CHECK(result.status == 0);
        }
        CHECK(permissions_of(at("")) == (std::string_view(place) == "own" ? 0700 : 0755));  // theirs stays
        int files = 0;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(at(""))) {
            INFO(entry.path());
            const auto folder = entry.path().parent_path();
            if (entry.is_directory())
                CHECK(permissions_of(entry.path()) == 0700);
            else if (folder == at(""))
                CHECK(permissions_of(entry.path()) == 0600);
            else  // the pictures beside the JSON
                CHECK(permissions_of(folder) == 0700);
            files += entry.is_regular_file() ? 1 : 0;
        }
        // 2 pictures, 12 tables and the overview, 2 of CGATS, the JSON and its 2 pictures.
        CHECK(files == 20);
    }
}

TEST_CASE("An export that cannot be written is refused in one line, and what lay there stays") {
    const ExportingShop shop;
    put_content(shop.folder / "note", "kept");
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {shop.folder / "note/all.json"},
             {shop.folder / "note/readings.txt", "--job", "table"},
             {shop.folder / "note/csv", "--as", "csv"},
             {shop.folder / "note/pictures", "--as", "pictures", "--job", "table"}}) {
        INFO(words.front());
        check_refused(shop.write(words), words.front(), "check");
    }
    check_refused(shop.write({shop.folder / "r.txt", "--job", "chest"}), "chest", "tonemend job list");
    CHECK_FALSE(std::filesystem::exists(shop.folder / "r.txt"));
    CHECK(content_of(shop.folder / "note") == "kept");
}
