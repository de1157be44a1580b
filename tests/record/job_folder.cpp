// A job folder only ever grows: the next number follows the highest that is there, whatever else lies in the
// folder.
#include "record/job_folder.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "calibrate/calibration.h"
#include "picture/input_error.h"
#include "practice/render.h"
#include "practice/scene.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// One comparison, measured once for all the tests.
struct Measured {
    Measured() {
        PracticeOptions options;
        options.width = 640, options.height = 480;
        const PracticeScene scene = make_scene(options);
        frame = render(scene);
        frame.name = "shop/board.tif";
        calibration = calibrate_on_card(frame, scene.card->card, scene.card->corners);
        comparison = compare_regions(frame, calibration, rectangle(scene.original.region),
                                     rectangle(scene.repair.region));
    }
    std::filesystem::path keep_in(const std::filesystem::path& folder) const {
        return JobFolder(folder).keep(frame, calibration, comparison);
    }
    Frame frame;
    Calibration calibration;
    Comparison comparison;
};

const Measured& measured() {
    static const Measured once;
    return once;
}

/// Every file below the folder with its content.
std::map<std::string, std::string> contents(const std::filesystem::path& folder) {
    std::map<std::string, std::string> found;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (entry.is_regular_file()) found[entry.path()] = content_of(entry.path());
    return found;
}

std::string refusal(const std::filesystem::path& folder) {
    try {
        measured().keep_in(folder);
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

}  // namespace

TEST_CASE("Readings are numbered from 0001 in the order in which they are kept") {
    const ScratchFolder folder;
    const std::filesystem::path job = folder / "deep/er/job";
    for (const char* name : {"0001-board.json", "0002-board.json", "0003-board.json"}) {
        const auto before =
            std::filesystem::exists(job) ? contents(job) : std::map<std::string, std::string>{};
        CHECK(measured().keep_in(job) == job / name);
        auto after = contents(job);
        CHECK(after.size() == before.size() + 2);
        for (const auto& [path, content] : before) CHECK(after[path] == content);
    }
    const auto json = nlohmann::json::parse(content_of(job / "0003-board.json"));
    CHECK(json["schema"] == "tonemend.comparison/1");
    CHECK(json["picture"] == "board.tif");
    CHECK(content_of(job / "0003-board.png").starts_with("\x89PNG"));
}

TEST_CASE("The next number follows the highest, whatever the files are called and whichever are missing") {
    struct Row {
        std::vector<std::string> there;
        std::string next;
    };
    const Row rows[] = {
        {{"0007-table.json", "0003-chair.png"}, "0008-board.json"},
        {{"0007-table.png"}, "0008-board.json"},  // its reading was never finished
        {{"notes.txt", "-", "12", "12-table.json", "1234", "0000-", "abcd-x.json", "00012x-.png",
          "Thumbs.db"},
         "0001-board.json"},
        {{"9998-table.json"}, "9999-board.json"},
        {{"9999-table.json"}, "10000-board.json"},
        {{"9999-table.json", "10000-table.json"}, "10001-board.json"},
        {{"99999999999999999999-wild.json", "0004-table.json"}, "0005-board.json"},
        {{"-0005-table.json", "+0006-table.json", " 0007-table.json", "0x08-table.json"}, "0001-board.json"},
        {{"\xff\xfe-latin.json",
          "0002-M\xf6"
          "bel.json"},
         "0003-board.json"},
    };
    for (const Row& row : rows) {
        const ScratchFolder folder;
        for (const std::string& name : row.there) put_content(folder / name, name);
        std::filesystem::create_directories(folder / "0001x-folder");
        const auto before = contents(folder.path());
        INFO(row.there.front());
        CHECK(measured().keep_in(folder.path()) == folder / row.next);
        auto after = contents(folder.path());
        CHECK(after.size() == before.size() + 2);
        for (const auto& [path, content] : before) CHECK(after[path] == content);
    }
    const ScratchFolder folder;
    std::filesystem::create_directories(folder / "0005-a folder");
    CHECK(measured().keep_in(folder.path()) == folder / "0006-board.json");
}

TEST_CASE("A job folder that cannot be is refused in one line with the cure, and nothing changes") {
    const ScratchFolder folder;
    put_content(folder / "note", "kept");
    std::filesystem::create_symlink(folder / "nowhere", folder / "dangling");
    for (const std::string& name : {"note", "note/job", "dangling/job"}) {
        const std::string message = refusal(folder / name);
        INFO(message);
        CHECK(message.starts_with((folder / name).string() + ": "));
        CHECK_THAT(message, contains("; choose one"));
        CHECK(message.find('\n') == message.npos);
    }
    CHECK(contents(folder.path()).size() == 1);
    CHECK(content_of(folder / "note") == "kept");
}
