#pragma once

#include <string>
#include <string_view>

namespace tonemend {

/// `text` made fit for a one-line message: control characters become spaces, runs of spaces one, ends
/// trimmed, and what is longer than `longest` bytes cut with "…".
std::string one_line(std::string_view text, std::size_t longest = 160);

/// Its plain letters a to z as capitals, all else as it is.
std::string in_capitals(std::string_view text);

}  // namespace tonemend
