// Exit statuses of the command line itself: 2 when it is wrong, 0 for help and version. Common practice (2 is
// what shells and POSIX utilities use for a wrong usage), no source.
#include <cstdlib>

#include "refusal.h"
#include "run_command.h"
#include "tests/catch.h"

using namespace tonemend::testing;

TEST_CASE("A wrong command line ends with status 2, says why on stderr and prints nothing on stdout") {
    struct Row {
        std::vector<std::string> arguments;
        std::string says;
    };
    const std::vector<std::string> sound{"compare", "a.png", "--original", "1,1,9,9", "--repair", "1,1,9,9"};
    const auto sound_and = [&](std::vector<std::string> more) {
        more.insert(more.begin(), sound.begin(), sound.end());
        return more;
    };
    const Row rows[] = {
        {{"paint"}, "paint"},
        {{"--source"}, "--source"},
        {{"--tolerance", "0"}, "--tolerance"},
        {{"compare"}, "picture"},
        {{"compare", "a.png", "--repair", "1,1,9,9"}, "--original"},
        {{"compare", "a.png", "--original", "1,1,9,9"}, "--repair"},
        {{"compare", "--original", "1,1,9,9", "--repair", "1,1,9,9"}, "picture"},
        {sound_and({"--colour"}), "--colour"},
        {sound_and({"second.png"}), "second.png"},
        {sound_and({"--tolerance", "0"}), "--tolerance"},
        {sound_and({"--tolerance", "-1"}), "--tolerance"},
        {sound_and({"--tolerance", "21"}), "--tolerance"},
        {sound_and({"--tolerance", "nan"}), "--tolerance"},
        {sound_and({"--tolerance", "tight"}), "--tolerance"},
        {sound_and({"--tolerance"}), "--tolerance"},
        {sound_and({"--card"}), "--card"},
        {{"card-frame", "--size", "huge"}, "--size"},
        {{"practice"}, "picture"},
        {{"practice", "a.png", "--seed", "one"}, "--seed"},
    };
    for (const Row& row : rows) {
        std::string shown;
        for (const std::string& word : row.arguments) shown += word + " ";
        const CommandResult result = run_tonemend(row.arguments);
        INFO("tonemend " << shown << "\n" << result.out << result.err);
        CHECK(result.status == 2);
        CHECK(result.out == "");
        CHECK_THAT(result.err, contains(row.says));
    }
}

TEST_CASE(
    "Without a subcommand the window opens, and where there is no display the command says what to do "
    "instead") {
    unsetenv("DISPLAY");
    unsetenv("WAYLAND_DISPLAY");
    check_refused(run_tonemend({}), "display", "tonemend compare");
    check_refused(run_tonemend({"--source", "practice"}), "display", "tonemend compare");
}

TEST_CASE("Help and version are answers: status 0, on stdout, nothing on stderr") {
    struct Row {
        std::vector<std::string> arguments;
        std::string says;
    };
    const Row rows[] = {
        {{"--help"}, "compare"},
        {{"--help"}, "--source"},
        {{"-h"}, "card-frame"},
        {{"--version"}, "tonemend 0."},
        {{"compare", "--help"}, "--black-level"},
        {{"card-frame", "--help"}, "--size"},
        {{"practice", "--help"}, "--seed"},
    };
    for (const Row& row : rows) {
        const CommandResult result = run_tonemend(row.arguments);
        INFO(result.out << result.err);
        CHECK(result.status == 0);
        CHECK_THAT(result.out, contains(row.says));
        CHECK(result.err == "");
    }
}

TEST_CASE("The other commands refuse what they cannot do in one line as well") {
    check_refused(run_tonemend({"card-frame", "--out", "frame.docx"}), "frame.docx", ".pdf or .svg");
    check_refused(run_tonemend({"card-frame", "--out", "/no-such-folder/frame.pdf"}),
                  "/no-such-folder/frame.pdf", "folder");
    check_refused(run_tonemend({"card-frame", "--out", "/no-such-folder/frame.svg"}),
                  "/no-such-folder/frame.svg", "folder");
    check_refused(run_tonemend({"practice", "/no-such-folder/a.png", "--width", "320", "--height", "240"}),
                  "/no-such-folder/a.png", "folder");
    check_refused(run_tonemend({"practice", "a.bmp", "--width", "320", "--height", "240"}), "a.bmp", ".png");
    check_refused(run_tonemend({"practice", "a.png", "--width", "-5"}), "width", "give 320 to");
    check_refused(run_tonemend({"practice", "a.png", "--wood", "brick"}), "brick", "choose one of");
    check_refused(run_tonemend({"practice", "a.png", "--lamp", "candle"}), "candle", "colord-data");
}
