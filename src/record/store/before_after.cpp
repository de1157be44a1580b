#include "record/store/before_after.h"

#include <nlohmann/json.hpp>

#include "colour/difference.h"
#include "record/json_numbers.h"
#include "record/utc_time.h"

namespace tonemend {

std::optional<BeforeAfter> find_before_after(const std::vector<ReadingRecord>& readings) {
    const ReadingRecord *before = nullptr, *after = nullptr, *first_fit = nullptr;
    for (const ReadingRecord& reading : readings)
        if (reading.role == ReadingRole::after) after = &reading;
    if (after == nullptr) return std::nullopt;
    for (const ReadingRecord& reading : readings) {
        if (reading.number >= after->number) break;
        if (reading.role == ReadingRole::before) before = &reading;
        if (first_fit == nullptr && !reading.unfit) first_fit = &reading;
    }
    if (before == nullptr) before = first_fit;
    if (before == nullptr) return std::nullopt;
    const Lab &then = before->repair, &now = after->repair;
    return BeforeAfter{*before,
                       *after,
                       before->de2000 - after->de2000,
                       ciede2000(before->original, after->original).value,
                       {now.L - then.L, now.a - then.a, now.b - then.b}};
}

ComparisonRecord to_comparison_record(const BeforeAfter& pair) {
    const nlohmann::ordered_json text{{"schema", "tonemend.before-after/1"},
                                      {"before", pair.before.number},
                                      {"after", pair.after.number},
                                      {"gain", rounded(pair.gain)},
                                      {"original_moved", rounded(pair.original_moved)},
                                      {"repair_moved", numbers_json(pair.repair_moved)}};
    return {.uid = {},
            .area = pair.after.area,
            .kind = ComparisonKind::before_after,
            .first = pair.before.uid,
            .second = pair.after.uid,
            .made = utc_now(),
            .text = text.dump()};
}

}  // namespace tonemend
