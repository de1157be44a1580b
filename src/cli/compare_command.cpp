#include <CLI/CLI.hpp>
#include <memory>

#include "cli/commands.h"
#include "cli/run_compare.h"

namespace tonemend {

void add_compare_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<CompareOptions>();
    CLI::App* command =
        app.add_subcommand("compare", "Compare a repair with the original beside it, in one picture");
    add_compare_options(*command, *options);
    command->add_option("--job", options->job.job,
                        "Keep reading and picture in this job, by number or name; a new name starts a job");
    add_area_choice(*command, options->job);
    add_store_option(*command, options->job);
    command->callback([options, &status] { status = run_compare(*options); });
}

}  // namespace tonemend
