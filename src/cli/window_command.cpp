#include <CLI/CLI.hpp>
#include <memory>

#include "cli/check_tolerance.h"
#include "cli/commands.h"
#include "live/run_window.h"

namespace tonemend {

void add_window_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<BenchOptions>();
    app.add_option(
        "--source", options->source,
        "What the window looks at: practice, camera, /dev/video0, an address of a stream, a folder, a video "
        "file or a picture; as last time unless given");
    app.add_option("--job", options->job, "Folder that the window's readings are kept in");
    app.add_option("--card", options->card, "Card description: a name from calibration/ or a file");
    app.add_option("--tolerance", options->tolerance, "ΔE2000 at which the repair passes, 0.05 to 20")
        ->check(check_tolerance);
    app.add_option("--display", options->display,
                   "Profile (.icc) of the display, or 'desktop' for the one that the desktop has set");
    app.callback([&app, options, &status] {
        if (!app.get_subcommands().empty()) return;
        run_window(*options);
        status = ExitStatus::measured;
    });
}

}  // namespace tonemend
