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

/// The same with stdout going to a device, of which nothing is read back.
CommandResult run_tonemend_into(const std::string& device, const std::vector<std::string>& arguments);

/// Starts a process for each, all at the same time, and waits for them; results in their order.
std::vector<CommandResult> run_at_once(const std::vector<std::vector<std::string>>& commands);

}  // namespace tonemend::testing
