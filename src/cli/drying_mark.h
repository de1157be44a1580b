#pragma once

#include <filesystem>
#include <string>

#include "measure/comparison.h"

namespace tonemend {

/// Marks a comparison made of a picture that was taken while the surface of a drying log (--drying) had not
/// settled: adds `still-settling` to its warnings. Throws InputError: see read_drying_log and time_taken; the
/// picture was taken before the log's present curve begins.
void mark_if_settling(Comparison& comparison, const std::filesystem::path& picture, const std::string& log);

}  // namespace tonemend
