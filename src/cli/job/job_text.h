#pragma once

#include <string>
#include <vector>

#include "record/store/before_after.h"
#include "record/store/job_store.h"

namespace tonemend {

// Records as the terminal shows them; each ends with a newline.

/// One line each: number, name, pieces, woods, readings, the newest reading's ΔE2000.
std::string list_jobs(const std::vector<JobSummary>& jobs);
/// Everything of a job: pieces, areas, steps, readings.
std::string say_job(const JobDossier& job);
std::string say_step(const FinishingStep& step);
std::string say_before_after(const BeforeAfter& pair);
/// "2026-11-25 10:09" of "2026-11-25T10:09:00Z", in UTC.
std::string short_moment(const std::string& moment);

}  // namespace tonemend
