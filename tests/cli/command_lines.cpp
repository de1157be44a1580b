// Exit statuses of the command line itself: 2 when it is wrong, 0 for help and version. Common practice (2 is
// what shells and POSIX utilities use for a wrong usage), no source.
#include <algorithm>
#include <cstdlib>

#include "refusal.h"
#include "run_command.h"
#include "tests/catch.h"

using namespace tonemend::testing;

TEST_CASE(
    "A wrong command line ends with status 2 and one line on stderr that says why and how it is right") {
    struct Row {
        std::vector<std::string> arguments;
        std::string says;
    };
    const std::vector<std::string> sound{"compare", "a.png", "--original", "1,1,9,9", "--repair", "1,1,9,9"};
    const auto sound_and = [&](std::vector<std::string> more) {
        more.insert(more.begin(), sound.begin(), sound.end());
        return more;
    };
    const std::string commands =
        "give one of compare, calibrate, check, second-light, lights, gloss, card-frame, practice, drying, "
        "finish-on";
    const std::string example = "for example: tonemend compare seat.jpg --original ";
    const std::string number = "write it like 1.0, with a point";
    const Row rows[] = {
        {{"--source"}, "--source requires a value; 'tonemend --help' says what it takes"},
        {{"--tolerance", "0"}, "--tolerance: '0' is not a number from 0.05 to 20; " + number},
        {{"paint"}, "'paint' is not a command; " + commands},
        {{"--colour"}, "'--colour' is not a command; " + commands},
        {{"a.png", "compare"}, commands},
        {{"compare"}, example},
        {{"compare", "a.png", "--repair", "1,1,9,9"}, "--original is required; " + example},
        {{"compare", "a.png", "--original", "1,1,9,9"}, "--repair is required; " + example},
        {{"compare", "--original", "1,1,9,9", "--repair", "1,1,9,9"}, "picture is required; " + example},
        {sound_and({"--colour"}), "--colour is not an option of compare; 'tonemend compare --help'"},
        {sound_and({"second.png"}),
         "'second.png' is left over; put the region in quotation marks, with commas and no blanks"},
        {{"compare", "a.png", "--original", "250,", "691,", "389,", "389", "--repair", "1,1,9,9"},
         "put the region in quotation marks, with commas and no blanks"},
        {sound_and({"--tolerance", "0"}), "--tolerance: '0' is not a number from 0.05 to 20; " + number},
        {sound_and({"--tolerance", "-1"}), number},
        {sound_and({"--tolerance", "21"}), number},
        {sound_and({"--tolerance", "nan"}), number},
        {sound_and({"--tolerance", "tight"}), number},
        {sound_and({"--tolerance", "0,5"}), number},
        {sound_and({"--tolerance", "1\n2"}), number},
        {sound_and({"--tolerance"}), "--tolerance"},
        {sound_and({"--card"}), "--card"},
        {{"card-frame", "--size", "huge"}, "--size"},
        {{"practice"}, "picture is required; for example: tonemend practice wood.png"},
        {{"practice", "a.png", "--seed", "one"}, "'tonemend practice --help' says what it takes"},
    };
    for (const Row& row : rows) {
        std::string shown;
        for (const std::string& word : row.arguments) shown += word + " ";
        const CommandResult result = run_tonemend(row.arguments);
        INFO("tonemend " << shown << "\n" << result.out << result.err);
        CHECK(result.status == 2);
        CHECK(result.out == "");
        CHECK(result.err.starts_with("tonemend: "));
        CHECK(std::count(result.err.begin(), result.err.end(), '\n') == 1);
        CHECK(result.err.ends_with('\n'));
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
    check_refused(run_tonemend({"practice", "a.png", "--lamp", "candle"}), "candle", "give one of CIE-A, ");
    check_refused(run_tonemend({"practice", "a.gif"}), "a.gif", ".webp or .dng");
}

TEST_CASE("Output that cannot be written is refused in one line with status 1") {
    // The device that is always full (Linux, full(4)).
    for (const std::vector<std::string>& arguments :
         {std::vector<std::string>{"--help"}, {"--version"}, {"compare", "--help"}})
        check_refused(run_tonemend_into("/dev/full", arguments), "standard output", "check the free space");
}
