#pragma once

#include <array>
#include <optional>
#include <vector>

#include "record/store/job_types.h"

namespace tonemend {

/// Two readings of one area and what lies between them.
struct BeforeAfter {
    ReadingRecord before, after;
    double gain = 0;            ///< ΔE2000 before minus after: plus is nearer to the original
    double original_moved = 0;  ///< ΔE2000 between the two readings of the original, which should be small
    std::array<double, 3> repair_moved{};  ///< ΔL*, Δa*, Δb* of the repair, after minus before
};

/// The newest reading taken as "after" against the newest one before it that was taken as "before", else the
/// first before it that is fit; nothing when there are no two.
std::optional<BeforeAfter> find_before_after(const std::vector<ReadingRecord>& readings);

/// The pair as a comparison of the area, "tonemend.before-after/1", for JobStore to keep.
ComparisonRecord to_comparison_record(const BeforeAfter& pair);

}  // namespace tonemend
