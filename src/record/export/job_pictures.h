#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "record/store/job_store.h"

namespace tonemend {

/// Writes a job's pictures into the folder, which is made: job-J-reading-N.ENDING as they were measured, and
/// job-J-reading-N-annotated.png. PNG, JPEG and TIFF carry the profile that says what their numbers mean
/// (sRGB's where they had none) and, as XMP and Exif, what they show, when it was read and by which program;
/// their samples stay as they are. Camera raw is byte for byte the camera's own file. Only their owner can
/// read them. One that is there is replaced. Returns what could not be written, a line each. Throws
/// InputError when the folder cannot be.
std::vector<std::string> write_job_pictures(JobStore& store, const Job& job,
                                            const std::filesystem::path& folder);

}  // namespace tonemend
