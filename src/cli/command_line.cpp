#include "cli/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <sstream>
#include <string>

#include "cli/commands.h"
#include "cli/output.h"
#include "cli/usage_error.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

namespace {

// Help and version are answers; all else is a wrong command line.
ExitStatus answer(const CLI::App& app, const CLI::ParseError& error, const std::string& first_word) {
    std::ostringstream out, unused;
    if (app.exit(error, out, unused) != 0) {
        fmt::print(stderr, "tonemend: {}\n", say_usage_error(app, error, first_word));
        return ExitStatus::usage;
    }
    try {
        print_out(out.str());
    } catch (const InputError& failure) {
        fmt::print(stderr, "tonemend: {}\n", failure.what());
        return ExitStatus::unusable;
    }
    return ExitStatus::measured;
}

}  // namespace

int run_command_line(int argc, char** argv) {
    CLI::App app{
        "Tonemend measures how far a repaired patch of finished wood is from the original beside it. "
        "Without a subcommand it opens the live window."};
    app.set_version_flag("--version", "tonemend " TONEMEND_VERSION);
    app.require_subcommand(0, 1);
    ExitStatus status = ExitStatus::measured;
    add_window_command(app, status);
    add_compare_command(app, status);
    add_calibrate_command(app, status);
    add_check_command(app, status);
    add_second_light_command(app, status);
    add_lights_command(app, status);
    add_gloss_command(app, status);
    add_card_frame_command(app, status);
    add_practice_command(app, status);
    add_drying_command(app, status);
    add_finish_on_command(app, status);
    add_job_command(app, status);
    add_kit_command(app, status);
    add_board_command(app, status);
    add_plan_command(app, status);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return static_cast<int>(answer(app, error, argc > 1 ? argv[1] : ""));
    } catch (const InputError& error) {
        fmt::print(stderr, "tonemend: {}\n", error.what());
        return static_cast<int>(ExitStatus::unusable);
    } catch (const std::bad_alloc&) {
        fmt::print(
            stderr,
            "tonemend: not enough memory for this picture; close other programs or use a smaller picture\n");
        return static_cast<int>(ExitStatus::unusable);
    } catch (const std::exception& error) {
        // No input should come here; if one does, its owner still gets one line.
        fmt::print(stderr, "tonemend: {}; please report this with the command and the files that led to it\n",
                   one_line(error.what(), 300));
        return static_cast<int>(ExitStatus::unusable);
    }
    return static_cast<int>(status);
}

}  // namespace tonemend
