#include <CLI/CLI.hpp>

#include "cli/commands.h"
#include "cli/job/job_parts.h"

namespace tonemend {

void add_job_command(CLI::App& app, ExitStatus& status) {
    CLI::App* job = app.add_subcommand(
        "job", "Jobs: pieces, areas, coats and readings, before and after; search, report, backup");
    job->require_subcommand(1, 1);
    add_job_record_parts(*job, status);
    add_job_step_parts(*job, status);
    add_job_reading_parts(*job, status);
    add_job_look_parts(*job, status);
    add_job_report_part(*job, status);
    add_job_store_parts(*job, status);
    add_job_transfer_parts(*job, status);
}

}  // namespace tonemend
