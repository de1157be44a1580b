#pragma once

#include <string>

#include "live/display_table.h"

namespace tonemend {

/// The display that the window is on.
struct DisplayChoice {
    DisplayTable table;
    std::string name;     ///< for people: "sRGB (no profile)", "the desktop's profile", or the file's name
    std::string trouble;  ///< one line when a profile is there and cannot be used
};

/// The profile in the file at `path` unless that is empty; else the one that the desktop has set for
/// `monitor`; else sRGB. A profile that cannot be used leaves sRGB.
DisplayChoice choose_display(const std::string& path, int monitor);

}  // namespace tonemend
