#pragma once

#include <string>

namespace tonemend {

/// Writes `text` to stdout and flushes it. Throws InputError when it cannot be written, such as on a full
/// disk.
void print_out(const std::string& text);

}  // namespace tonemend
