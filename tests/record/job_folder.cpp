// A job folder only ever grows: the next number follows the highest that is there, whatever else lies in the
// folder.
#include "record/job_folder.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <span>

#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

Comparison two_woods() {
    Comparison comparison;
    comparison.original.lab = {50, 10, 30}, comparison.repair.lab = {52, 11, 29};
    return comparison;
}

std::filesystem::path keep_in(const std::filesystem::path& folder, const std::string& picture = "board.tif") {
    const std::string drawn = "\x89PNG drawn";
    const auto bytes = std::as_bytes(std::span(drawn));
    return JobFolder(folder)
        .keep({picture, "2026-11-25T12:00:00Z", {bytes.begin(), bytes.end()}, {}, two_woods(), std::nullopt})
        .place;
}

/// Every file below the folder with its content.
std::map<std::string, std::string> files_below(const std::filesystem::path& folder) {
    std::map<std::string, std::string> found;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (entry.is_regular_file()) found[entry.path()] = content_of(entry.path());
    return found;
}

std::string folder_refusal(const std::filesystem::path& folder) {
    try {
        keep_in(folder);
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
            std::filesystem::exists(job) ? files_below(job) : std::map<std::string, std::string>{};
        CHECK(keep_in(job) == job / name);
        auto after = files_below(job);
        CHECK(after.size() == before.size() + 2);
        for (const auto& [path, content] : before) CHECK(after[path] == content);
    }
    const auto json = nlohmann::json::parse(content_of(job / "0003-board.json"));
    CHECK(json["schema"] == "tonemend.comparison/1");
    CHECK(json["picture"] == "board.tif");
    CHECK(content_of(job / "0003-board.png") == "\x89PNG drawn");
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
        {{"99999-table.json"}, "100000-board.json"},
        {{"0007-table.json.undone", "0003-table.json"}, "0008-board.json"},
        {{"0007-table.frame.tif"}, "0008-board.json"},
        {{"0007-table.tif", "0008-table.undone", "0003-table.json"}, "0004-board.json"},  // none of ours
        {{"999998-table.json"}, "999999-board.json"},
        {{"1000000-table.json", "20260131-table.png"}, "0001-board.json"},  // more digits than ours have
        {{"0041-note.txt", "240131-seat.jpg", "0005-table.json"}, "0006-board.json"},  // other kinds of file
        {{".0001.claim", "notes.txt"}, "0002-board.json"},  // claimed by another program
        {{"0003-table.json", ".0004.claim", ".0005.claim"}, "0006-board.json"},
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
        const auto before = files_below(folder.path());
        INFO(row.there.front());
        CHECK(keep_in(folder.path()) == folder / row.next);
        auto after = files_below(folder.path());
        CHECK(after.size() == before.size() + 2);
        for (const auto& [path, content] : before) CHECK(after[path] == content);
    }
}

TEST_CASE("A folder whose numbers are used up takes no more readings, and none is replaced") {
    const ScratchFolder folder;
    put_content(folder / "999999-board.json", "the last");
    const std::string message = folder_refusal(folder.path());
    CHECK_THAT(message, contains("; choose a new folder"));
    CHECK(files_below(folder.path()).size() == 1);
    CHECK(content_of(folder / "999999-board.json") == "the last");
}

TEST_CASE("A picture's long name is cut, between letters, so that the file names fit") {
    const ScratchFolder folder;
    // "ö" has two bytes in UTF-8: 99 and a half of them fit behind "x".
    std::string name = "x";
    for (int i = 0; i < 125; ++i) name += "ö";
    const auto path = keep_in(folder.path(), name + ".tif");
    std::string cut = "x";
    for (int i = 0; i < 99; ++i) cut += "ö";
    CHECK(path == folder / ("0001-" + cut + ".json"));
    CHECK(nlohmann::json::parse(content_of(path))["picture"] == name + ".tif");
}

TEST_CASE("A kept reading leaves no claim behind") {
    const ScratchFolder folder;
    keep_in(folder.path());
    CHECK(files_below(folder.path()).size() == 2);
}

TEST_CASE("A job folder that cannot be is refused in one line with the cure, and nothing changes") {
    const ScratchFolder folder;
    put_content(folder / "note", "kept");
    std::filesystem::create_symlink(folder / "nowhere", folder / "dangling");
    for (const std::string& name : {"note", "note/job", "dangling/job"}) {
        const std::string message = folder_refusal(folder / name);
        INFO(message);
        CHECK(message.starts_with((folder / name).string() + ": "));
        CHECK_THAT(message, contains("; choose one"));
        CHECK(message.find('\n') == message.npos);
    }
    CHECK(files_below(folder.path()).size() == 1);
    CHECK(content_of(folder / "note") == "kept");
}
