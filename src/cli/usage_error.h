#pragma once

#include <string>

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace tonemend {

/// What is wrong with a command line, and the cure, as one line without a name in front. `first_word` is the
/// command line's first, empty when there is none.
std::string say_usage_error(const CLI::App& app, const CLI::ParseError& error, const std::string& first_word);

}  // namespace tonemend
