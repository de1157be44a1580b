#pragma once

#include <CLI/CLI.hpp>
#include <memory>

#include "cli/command_line.h"

namespace tonemend {

/// A subcommand that does `act(*options)`, which live as long as it.
template <typename Options, typename Act>
CLI::App* add_part(CLI::App& parent, ExitStatus& status, const char* name, const char* help,
                   const std::shared_ptr<Options>& options, Act act) {
    CLI::App* part = parent.add_subcommand(name, help);
    part->callback([options, &status, act] {
        status = ExitStatus::measured;
        act(*options);
    });
    return part;
}

}  // namespace tonemend
