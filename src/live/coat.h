#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "colour/lab.h"
#include "measure/verdict.h"
#include "record/reading_store.h"
#include "record/utc_time.h"

namespace tonemend {

/// Whether a reading has reached the disk.
enum class Kept { saving, saved, failed };

/// One reading of the job, as the row along the bottom shows it.
struct Coat {
    int number = 0;     ///< as the store counts; 0 while it is being saved
    std::string taken;  ///< "2026-11-25T10:09:00Z"
    Lab original, repair;
    double de2000 = 0, u95 = 0;
    Verdict verdict = Verdict::undecided;
    Kept kept = Kept::saved;
    std::uint64_t ticket = 0;                          ///< of the keeper, while it is being saved; else 0
    bool unfit = false;                                ///< a warning speaks against it
    std::optional<PictureLight> light = std::nullopt;  ///< absent when an older program kept it
};

Coat to_coat(const KeptReading& reading);
/// All that the store lists.
std::vector<Coat> list_coats(const ReadingStore& store);

/// "14:05" today, "25 Nov" this year, "25 Nov 2026" else; local time. `now` likewise in UTC.
std::string short_time(const std::string& taken, const std::string& now);

}  // namespace tonemend
