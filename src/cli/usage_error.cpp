#include "cli/usage_error.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string_view>
#include <vector>

#include "picture/text_line.h"

namespace tonemend {
namespace {

std::string example_of(const std::string& command) {
    if (command == "compare")
        return "tonemend compare seat.jpg --original 250,691,389,389 --repair 883,704,389,389 --card "
               "six-step-card";
    if (command == "gloss")
        return "tonemend gloss lamp-left.jpg lamp-front.jpg --original 250,691,389,389 --repair "
               "883,704,389,389 --card six-step-card";
    if (command == "practice") return "tonemend practice wood.png --seed 3";
    if (command == "calibrate")
        return "tonemend calibrate card.jpg --card six-step-card --save shop.json --icc shop.icc";
    if (command == "check")
        return "tonemend check shop.json today.jpg --region 250,691,389,389 --lab 52.3,14.1,27.8";
    if (command == "second-light")
        return "tonemend second-light day.jpg bulb.jpg --original 250,691,389,389 --repair 883,704,389,389 "
               "--card six-step-card --light-1 daylight:6500 --light-2 CIE-A";
    if (command == "lights") return "tonemend lights add 'shop window' daylight:6500";
    if (command == "drying")
        return "tonemend drying stills/ --region 883,704,389,389 --card six-step-card --kind dye-water";
    if (command == "job")
        return "tonemend job start 'Hall chair' --wood oak; 'tonemend job --help' names the others";
    if (command == "kit")
        return "tonemend kit add 'Walnut 4' --kind dye-alcohol; 'tonemend kit --help' names the others";
    if (command == "board")
        return "tonemend board guide 'oak scraps'; 'tonemend board --help' names the others";
    if (command == "plan") return "tonemend plan 'Hall chair'";
    return "tonemend " + command;
}

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(command->get_name());
    return names;
}

std::string say_leftover(const std::string& command, const std::vector<std::string>& words) {
    const auto option = std::find_if(words.begin(), words.end(),
                                     [](const std::string& word) { return word.starts_with("--"); });
    if (option != words.end())
        return fmt::format("{} is not an option of {}; 'tonemend {} --help' lists them",
                           one_line(*option, 60), command, command);
    if (command == "job" || command == "kit" || command == "board" || command == "plan")
        return fmt::format(
            "'{0}' is left over; 'tonemend {1} --help' names what {1} can do, and a name of several words "
            "goes in "
            "quotation marks",
            one_line(words.front(), 60), command);
    if (command == "lights")
        return fmt::format(
            "'{}' is left over; 'tonemend lights' lists, and takes add, check or remove; put a "
            "name of several words in quotation marks",
            one_line(words.front(), 60));
    return fmt::format("'{}' is left over; put the region in quotation marks, with commas and no blanks",
                       one_line(words.front(), 60));
}

}  // namespace

std::string say_usage_error(const CLI::App& app, const CLI::ParseError& error,
                            const std::string& first_word) {
    const auto chosen = app.get_subcommands();
    const auto commands = command_names(app);
    std::string what = one_line(error.what(), 200);
    if (app.get_option_no_throw(first_word) != nullptr) {
        if (what.find("; ") != std::string::npos) return what;
        const bool alone = error.get_exit_code() == static_cast<int>(CLI::ExitCodes::ArgumentMismatch);
        return fmt::format("{}; 'tonemend --help' says what it takes",
                           alone ? one_line(first_word, 60) + " requires a value" : what);
    }
    if (chosen.empty() || std::find(commands.begin(), commands.end(), first_word) == commands.end())
        return fmt::format("'{}' is not a command; give one of {} ('tonemend --help' tells more)",
                           one_line(first_word, 60), fmt::join(commands, ", "));
    const std::string command = chosen.front()->get_name();
    const std::vector<std::string> words = app.remaining(true);
    const auto is = [&](CLI::ExitCodes code) { return error.get_exit_code() == static_cast<int>(code); };
    // A region without quotation marks leaves words over, which may well be why something is missing.
    if (!words.empty() && (is(CLI::ExitCodes::ExtrasError) || is(CLI::ExitCodes::RequiredError)))
        return say_leftover(command, words);
    if (is(CLI::ExitCodes::RequiredError))
        return fmt::format("{}; for example: {}", what, example_of(command));
    // What our own checks say has its cure.
    if (what.find("; ") != std::string::npos) return what;
    return fmt::format("{}; 'tonemend {} --help' says what it takes", what, command);
}

}  // namespace tonemend
