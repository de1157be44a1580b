#pragma once

namespace tonemend {

/// What a process tells its caller.
enum class ExitStatus {
    measured = 0,  ///< done
    unusable = 1,  ///< the input cannot be read or used; one line on stderr says why and how to cure it
    usage = 2,     ///< the command line is wrong
    unfit = 3      ///< measured, but a warning makes the reading unfit
};

/// Reads the command line, does what it says and returns the exit status.
int run_command_line(int argc, char** argv);

}  // namespace tonemend
