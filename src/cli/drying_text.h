#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "measure/drying_watch.h"
#include "measure/followed_region.h"

namespace tonemend {

/// One reading as a line: time of day here, colour, what is said as of it, and what became of it if it was
/// not simply added.
std::string reading_line(const FollowedReading& reading, DryingWatch::Taken taken, double seconds,
                         const DryingReport& report);
/// The alarm: "settled", with the change since wet.
std::string settled_line(const DryingReport& report);
/// What was found when the watch ends, and what wait is usual.
std::string end_text(const DryingReport& report, DryingKind kind);
/// The same as an object, schema "tonemend.drying-report/1".
nlohmann::ordered_json drying_json(const DryingReport& report, DryingKind kind);
/// The table of usual waits, a line a kind.
std::string waits_text();

}  // namespace tonemend
