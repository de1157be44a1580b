#pragma once

#include <stdexcept>
#include <string>

namespace tonemend {

/// Something from outside (a file, a card, a region) cannot be used. The text is one line that names the
/// thing, says what is wrong and how to cure it; a command prints it on stderr and exits 1.
class InputError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

}  // namespace tonemend
