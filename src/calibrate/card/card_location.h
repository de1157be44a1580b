#pragma once

#include <filesystem>
#include <string>

namespace tonemend {

/// The file `name` that came with the program: in $TONEMEND_CALIBRATION_DIR, the installed folder, or the
/// source tree's calibration/, whichever has it first. Throws InputError.
std::filesystem::path locate_calibration_file(const std::string& name);

}  // namespace tonemend
