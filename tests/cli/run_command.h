#pragma once

#include <string>
#include <vector>

namespace tonemend::testing {

/// What a finished process left.
struct CommandResult {
    int status = -1;  ///< exit status; −n when signal n ended it
    std::string out;
    std::string err;
};

/// Runs `tonemend` as a process of its own with these arguments; stdout and stderr are files, not terminals,
/// though the environment promises a terminal of true colour.
CommandResult run_tonemend(const std::vector<std::string>& arguments);

}  // namespace tonemend::testing
