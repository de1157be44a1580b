#pragma once

#include <string>
#include <vector>

#include "run_command.h"

namespace tonemend::testing {

/// Checks the contract of a refusal (exit status 1): nothing on stdout; on stderr exactly one line, which
/// names `culprit` and says `cure`.
void check_refused(const CommandResult& result, const std::string& culprit, const std::string& cure);

}  // namespace tonemend::testing
