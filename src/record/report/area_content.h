#pragma once

#include "record/report/reading_facts.h"
#include "record/report/report_content.h"

namespace tonemend {

/// A kept reading with what its text says.
struct ReadReading {
    const ReadingRecord* record = nullptr;
    ReadingFacts facts;

    bool unfit() const { return record->unfit; }
    /// "match", …, or "unfit".
    std::string verdict() const;
};
using ReadReadings = std::vector<ReadReading>;

/// Before and after as report_content chooses them; null: there is none. The same when there is but one.
struct ChosenPair {
    const ReadReading *before = nullptr, *after = nullptr;
    bool is_change() const { return before != nullptr && before != after; }
};
ChosenPair choose_pair(const ReadReadings& readings);

ReportPoint to_point_of(const ReadReading& reading);

// The parts of an area.
ReportTable change_table(const ChosenPair& pair);
ReportTable readings_table(const ReadReadings& readings);
ReportTable lights_table(const std::vector<ComparisonRecord>& comparisons, const ReadReadings& readings,
                         std::vector<std::string>& words);
ReportTable steps_table(const std::vector<FinishingStep>& steps, Units units);
/// A line a warning, with the numbers of the readings that it stood against.
std::vector<std::string> warning_lines(const ReadReadings& readings);

// Parts of the whole.
std::vector<ReportFacts> made_with_facts(const std::vector<ReadReadings>& areas);
ReportTable files_table(const std::vector<ReadReadings>& areas);
ReportTable hashes_table(const std::vector<ReadReadings>& areas);

}  // namespace tonemend
