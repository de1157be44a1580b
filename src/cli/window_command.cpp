#include <CLI/CLI.hpp>
#include <memory>

#include "cli/check_tolerance.h"
#include "cli/commands.h"
#include "live/run_window.h"

namespace tonemend {

void add_window_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<BenchOptions>();
    auto colourants = std::make_shared<std::string>();
    app.add_option(
        "--source", options->source,
        "What the window looks at: practice, camera, /dev/video0, an address of a stream, a folder, a video "
        "file or a picture; as last time unless given");
    app.add_option("--job", options->job,
                   "Job that readings are kept in, by number or name; a new name starts one");
    app.add_option("--store", options->store,
                   "Store of jobs: a file, or postgresql://user@host/database; remembered");
    app.add_option("--card", options->card, "Card description: a name from calibration/ or a file");
    app.add_option("--tolerance", options->tolerance, "ΔE2000 at which the repair passes, 0.05 to 20")
        ->check(check_tolerance);
    app.add_option(
           "--flat", options->flat,
           "Picture that shows how the light falls, to even it out: one of an even grey sheet, or several "
           "(--flat A --flat B) of the framed card at several places")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    app.add_option("--display", options->display,
                   "Profile (.icc) of the display, or 'desktop' for the one that the desktop has set");
    app.add_option(
        "--calibration", options->calibration,
        "Calibration saved by 'tonemend calibrate --save'; 'none' goes back to the picture's card alone");
    app.add_option("--light", options->light,
                   "The lamp's colour temperature, as 2700, or what it is: CIE-A, CIE-D65, planckian:2856, "
                   "daylight:5500, led:3000; 'none': not known");
    app.add_option("--colourants", *colourants,
                   "What the repair was coloured with: 'same' as the original, other 'earth' and wood "
                   "colours, or 'other' hues")
        ->check(CLI::IsMember({"same", "earth", "other"}));
    app.callback([&app, options, colourants, &status] {
        if (!app.get_subcommands().empty()) return;
        options->colourants = colourants_named(*colourants);
        run_window(*options);
        status = ExitStatus::measured;
    });
}

}  // namespace tonemend
