#pragma once

#include <string>

namespace tonemend {

/// Something that spoils, or may spoil, a reading.
struct Warning {
    std::string code;    ///< kebab-case, stable: other programs match on it
    std::string text;    ///< what was found, in numbers, and the cure
    bool unfit = false;  ///< true: the reading must not be relied on; it is still shown
};

}  // namespace tonemend
