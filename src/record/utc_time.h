#pragma once

#include <string>

namespace tonemend {

/// The moment as "2026-11-25T10:09:00Z" (ISO 8601).
std::string utc_now();
/// The same for seconds since 1970, UTC.
std::string utc_text(double seconds);

}  // namespace tonemend
