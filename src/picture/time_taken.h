#pragma once

#include <filesystem>

namespace tonemend {

/// How the time of a picture is known.
enum class TimeOrigin { exif, file };

/// When a picture was taken.
struct TimeTaken {
    double seconds = 0;  ///< since 1970, UTC
    TimeOrigin origin = TimeOrigin::file;
};

/// When the still at `path` was taken: what its EXIF says (DateTimeOriginal, see exif_seconds), else when the
/// file was last written. Nothing of the picture is decoded. Throws InputError when there is no such file.
TimeTaken time_taken(const std::filesystem::path& path);

}  // namespace tonemend
