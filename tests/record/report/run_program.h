#pragma once

#include <cstdlib>
#include <filesystem>
#include <string>

#include "tests/support/scratch_folder.h"

namespace tonemend::testing {

struct ProgramOutcome {
    int status = -1;   ///< as it ended
    std::string said;  ///< standard output and error
};

/// Runs a shell's command line.
inline ProgramOutcome run_program(const std::string& command) {
    const ScratchFolder scratch;
    const auto said = scratch / "said.txt";
    const int ended = std::system((command + " >'" + said.string() + "' 2>&1").c_str());
    return {ended == -1 ? -1 : WEXITSTATUS(ended), content_of(said)};
}

}  // namespace tonemend::testing
