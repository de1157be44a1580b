#pragma once

#include <optional>
#include <string>

namespace tonemend {

/// EXIF's DateTimeOriginal ("2026:11:25 10:09:00") as seconds since 1970, UTC. `offset` is OffsetTimeOriginal
/// ("+01:00"; CIPA DC-008, 4.6.5); without it the camera's clock is taken to show this machine's local time.
/// `fraction` is SubSecTimeOriginal, the digits behind the point. Nothing when it is no date, and for cameras
/// whose clock was never set (a year before 1990).
std::optional<double> exif_seconds(const std::string& date_time, const std::string& offset = {},
                                   const std::string& fraction = {});

}  // namespace tonemend
