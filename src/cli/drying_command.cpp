#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <vector>

#include "cli/commands.h"
#include "cli/drying_sources.h"
#include "cli/drying_text.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

ExitStatus watch_drying(const DryingOptions& options) {
    DryingProgress progress(options);
    std::error_code failed;
    if (std::filesystem::is_directory(options.source, failed))
        watch_folder(options, progress);
    else
        watch_live(options, progress);
    progress.finish();
    return ExitStatus::measured;
}

}  // namespace

void add_drying_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<DryingOptions>();
    CLI::App* command = app.add_subcommand(
        "drying", "Follow a wet region while it dries: how long still, and when its colour has settled");
    command
        ->add_option("source", options->source,
                     "A folder of stills taken every few minutes, or a live source: camera, /dev/video0, an "
                     "address, practice")
        ->required();
    command
        ->add_option("--region", options->region, "The wet region in the first picture: x,y,w,h or a polygon")
        ->required();
    add_calibration_options(*command, options->light);
    add_saved_calibration_option(*command, options->light);
    std::vector<std::string> kinds;
    for (const DryingWait& wait : drying_waits()) kinds.push_back(wait.name);
    command->add_option("--kind", options->kind, "What was put on")
        ->check(CLI::IsMember(kinds))
        ->capture_default_str();
    command
        ->add_option("--label-minutes", options->label_minutes,
                     "Minutes until dry by the product's label, which go before the usual wait")
        ->check(CLI::Range(0.1, 1e5));
    command->add_option("--every", options->every, "Seconds between readings of a live source")
        ->check(CLI::Range(1.0, 3600.0))
        ->capture_default_str();
    command->add_option("--log", options->log,
                        "Keep each reading in this file, a line each, and go on from what it holds");
    command->add_flag("--follow", options->follow, "Go on with pictures that come into the folder later");
    command->add_flag("--until-settled", options->until_settled, "End when the colour has settled");
    command->add_option("--readings", options->readings, "End after so many new readings")
        ->check(CLI::Range(1, 1000000));
    command->add_flag("--json", options->json, "Print one JSON object at the end and nothing else");
    command->footer(waits_text());
    command->callback([options, &status] { status = watch_drying(*options); });
}

}  // namespace tonemend
