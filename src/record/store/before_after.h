#pragma once

#include <optional>
#include <string>

#include "record/store/job_store.h"

namespace tonemend {

/// Two readings of one area and what lies between them.
struct BeforeAfter {
    ReadingRecord before, after;
    double gain = 0;            ///< ΔE2000 before minus after: plus is nearer to the original
    double original_moved = 0;  ///< ΔE2000 between the two readings of the original, which should be small
    std::array<double, 3> repair_moved{};  ///< ΔL*, Δa*, Δb* of the repair, after minus before
};

/// The newest reading taken as "after" against the newest one before it that was taken as "before", else the
/// area's first; nothing when there are no two.
std::optional<BeforeAfter> find_before_after(const std::vector<ReadingRecord>& readings);

/// Keeps the pair as a comparison of the area, "tonemend.before-after/1"; nothing when there are no two.
std::optional<BeforeAfter> keep_before_after(JobStore& store, const std::string& area);

}  // namespace tonemend
