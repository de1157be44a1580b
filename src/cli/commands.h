#pragma once

#include "cli/command_line.h"

namespace CLI {
class App;
}

namespace tonemend {

/// Without a subcommand the window opens, with the options added here.
void add_window_command(CLI::App& app, ExitStatus& status);
/// Each adds one subcommand to `app`; when it is chosen it runs while the command line is parsed, and leaves
/// its outcome in `status`. Both must outlive the parsing. Running may throw InputError.
void add_compare_command(CLI::App& app, ExitStatus& status);
void add_calibrate_command(CLI::App& app, ExitStatus& status);
void add_check_command(CLI::App& app, ExitStatus& status);
void add_second_light_command(CLI::App& app, ExitStatus& status);
void add_lights_command(CLI::App& app, ExitStatus& status);
void add_gloss_command(CLI::App& app, ExitStatus& status);
void add_card_frame_command(CLI::App& app, ExitStatus& status);
void add_practice_command(CLI::App& app, ExitStatus& status);
void add_drying_command(CLI::App& app, ExitStatus& status);
void add_finish_on_command(CLI::App& app, ExitStatus& status);
void add_job_command(CLI::App& app, ExitStatus& status);
void add_kit_command(CLI::App& app, ExitStatus& status);
void add_board_command(CLI::App& app, ExitStatus& status);
void add_plan_command(CLI::App& app, ExitStatus& status);

}  // namespace tonemend
