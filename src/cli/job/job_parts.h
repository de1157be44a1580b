#pragma once

#include "cli/command_line.h"

namespace CLI {
class App;
}

namespace tonemend {

// Each adds some of the subcommands of `tonemend job`, as commands.h says.

/// start, add-piece, add-area, close, open, undo
void add_job_record_parts(CLI::App& job, ExitStatus& status);
/// coat, done, copy-recipe
void add_job_step_parts(CLI::App& job, ExitStatus& status);
/// before, after, original
void add_job_reading_parts(CLI::App& job, ExitStatus& status);
/// list, show
void add_job_look_parts(CLI::App& job, ExitStatus& status);
/// verify, backup, restore, rescue, copy
void add_job_store_parts(CLI::App& job, ExitStatus& status);
/// report
void add_job_report_part(CLI::App& job, ExitStatus& status);
/// export, import
void add_job_transfer_parts(CLI::App& job, ExitStatus& status);

}  // namespace tonemend
