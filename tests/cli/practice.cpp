// What `practice` and `card-frame` write, and that they replace nothing unasked. The rules are this program's
// own.
#include <sstream>

#include "bench.h"
#include "refusal.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::vector<std::string> practice(const std::string& picture, const std::vector<std::string>& more = {}) {
    return with({"practice", picture, "--seed", "3", "--width", "900", "--height", "675"}, more);
}

/// The words of a command line, as a shell parts them: quotation marks '…' keep blanks.
std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words(1);
    bool quoted = false;
    for (const char letter : line) {
        if (letter == '\'') {
            quoted = !quoted;
        } else if (letter == ' ' && !quoted) {
            words.emplace_back();
        } else {
            words.back() += letter;
        }
    }
    return words;
}

std::string last_line(const std::string& text) {
    std::istringstream in(text);
    std::string line, last;
    while (std::getline(in, line)) last = line;
    return last;
}

}  // namespace

TEST_CASE("The command that practice prints compares the picture it made") {
    const ScratchFolder folder;
    const std::string name = folder / "a board.png";
    for (const std::vector<std::string>& mount :
         {std::vector<std::string>{}, {"--card-mount", "bare"}, {"--card", "three-step-card"}}) {
        const CommandResult made = run_tonemend(practice(name, with(mount, {"--force"})));
        INFO(made.out << made.err);
        REQUIRE(made.status == 0);
        const std::string line = last_line(made.out);
        REQUIRE(line.starts_with("tonemend compare '" + name + "' --original "));
        auto words = words_of(line);
        words.erase(words.begin());
        const auto json = compare_json(words);
        const auto truth = nlohmann::json::parse(content_of(name + ".truth.json"));
        CHECK(json["original"]["pixels"].get<int>() > 10000);
        CHECK(truth["schema"] == "tonemend.practice-truth/1");
        CHECK((line.find("--card-at") != line.npos) == (mount.size() == 2 && mount[1] == "bare"));
    }
    const CommandResult bare = run_tonemend(practice(folder / "no-card.png", {"--card-mount", "absent"}));
    CHECK(bare.out.find("tonemend compare") == bare.out.npos);
}

TEST_CASE("A picture, its truth or a card frame that exists is replaced only with --force") {
    const ScratchFolder folder;
    const std::string picture = folder / "chair.png", frame = folder / "frame.pdf";
    const auto check_kept = [](const std::vector<std::string>& arguments, const std::string& file) {
        put_content(file, "dear to its owner");
        check_refused(run_tonemend(arguments), file, "exists; choose another name or add --force");
        CHECK(content_of(file) == "dear to its owner");
    };
    check_kept(practice(picture), picture);
    REQUIRE(run_tonemend(practice(picture, {"--force"})).status == 0);
    CHECK(content_of(picture).starts_with("\x89PNG"));

    std::filesystem::remove(picture);
    check_kept(practice(picture), picture + ".truth.json");
    CHECK_FALSE(std::filesystem::exists(picture));

    const std::vector<std::string> card_frame{"card-frame", "--out", frame};
    check_kept(card_frame, frame);
    REQUIRE(run_tonemend(with(card_frame, {"--force"})).status == 0);
    CHECK(content_of(frame).starts_with("%PDF"));
}
