#include "cli/output.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <system_error>

#include "picture/input_error.h"

namespace tonemend {

void print_out(const std::string& text) {
    if (std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0) return;
    throw InputError(
        fmt::format("standard output: cannot be written ({}); check the free space where it goes",
                    std::generic_category().message(errno)));
}

}  // namespace tonemend
