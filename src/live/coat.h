#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "colour/lab.h"
#include "measure/verdict.h"

namespace tonemend {

/// Whether a reading has reached the disk.
enum class Kept { saving, saved, failed };

/// One reading of the job, as the row along the bottom shows it.
struct Coat {
    int number = 0;     ///< as the job folder counts; 0 while it is being saved
    std::string taken;  ///< "2026-11-25T10:09:00Z"
    Lab original, repair;
    double de2000 = 0, u95 = 0;
    Verdict verdict = Verdict::undecided;
    Kept kept = Kept::saved;
    std::filesystem::path file;  ///< the comparison's JSON
};

/// The readings that a job folder holds, in the order they were taken; files that are none of ours, or
/// damaged, are passed over. An absent folder is an empty job.
std::vector<Coat> list_coats(const std::filesystem::path& job);

/// Marks a reading as undone: its JSON gets the ending ".undone" and is no longer listed. Nothing is deleted.
/// Throws InputError.
void mark_undone(const std::filesystem::path& file);

/// "14:05" today, "25 Nov" this year, "25 Nov 2026" else; local time. `now` likewise in UTC.
std::string short_time(const std::string& taken, const std::string& now);
/// The moment as "2026-11-25T10:09:00Z".
std::string utc_now();

}  // namespace tonemend
