#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "record/number_text.h"
#include "record/report/area_content.h"
#include "record/report/report_words.h"

namespace tonemend {
namespace {

std::string or_not_recorded(const std::string& text) {
    return text.empty() ? not_recorded : text;
}

std::string joined_by_commas(const std::vector<std::string>& texts) {
    std::string all;
    for (const std::string& text : texts) all += (all.empty() ? "" : ", ") + text;
    return all;
}

std::vector<ReportFact> facts_of(const ReadReading& reading) {
    const ReadingRecord& record = *reading.record;
    const ReadingFacts& facts = reading.facts;
    const std::string& light = record.light.empty() ? facts.stated_light : record.light;
    std::vector<ReportFact> all{
        {"Card", or_not_recorded(facts.card)},
        {"Tone curve", or_not_recorded(facts.tone_curve)},
        {"Camera's colours", or_not_recorded(facts.characterisation)},
        {"Light as stated", light.empty() ? "not stated" : light},
        {"Colourants taken to be", or_not_recorded(facts.colourants)},
        {"Tolerance", fmt::format("ΔE2000 {}", number_text(record.tolerance, Sign::only_minus))},
        {"Software", or_not_recorded(record.software)}};
    if (!facts.flat_field.empty()) all.push_back({"Light evened out", facts.flat_field});
    if (!facts.further_lights.empty())
        all.push_back({"Also read under further lights", joined_by_commas(facts.further_lights)});
    if (!facts.picture_encoding.empty()) all.push_back({"Picture's encoding", facts.picture_encoding});
    if (!record.calibration.empty()) all.push_back({"Saved calibration", short_hash(record.calibration)});
    return all;
}

bool same_facts(const std::vector<ReportFact>& these, const std::vector<ReportFact>& those) {
    return std::equal(
        these.begin(), these.end(), those.begin(), those.end(),
        [](const ReportFact& p, const ReportFact& q) { return p.label == q.label && p.text == q.text; });
}

}  // namespace

std::vector<ReportFacts> made_with_facts(const std::vector<ReadReadings>& areas) {
    struct Group {
        std::vector<ReportFact> facts;
        std::vector<int> numbers;
    };
    std::vector<Group> groups;
    for (const ReadReadings& readings : areas)
        for (const ReadReading& reading : readings) {
            std::vector<ReportFact> facts = facts_of(reading);
            const auto found = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
                return same_facts(group.facts, facts);
            });
            if (found == groups.end())
                groups.push_back({std::move(facts), {reading.record->number}});
            else
                found->numbers.push_back(reading.record->number);
        }
    std::vector<ReportFacts> all;
    for (Group& group : groups) {
        std::sort(group.numbers.begin(), group.numbers.end());
        all.push_back({fmt::format("{} {}", group.numbers.size() == 1 ? "Reading" : "Readings",
                                   numbers_text(group.numbers)),
                       std::move(group.facts)});
    }
    return all;
}

ReportTable files_table(const std::vector<ReadReadings>& areas) {
    ReportTable table;
    for (const ReadReadings& readings : areas)
        for (const ReadReading& reading : readings)
            table.rows.push_back(
                {{std::to_string(reading.record->number)},
                 {or_not_recorded(reading.record->picture)},
                 {reading.record->source.empty() ? "not kept" : short_hash(reading.record->source)},
                 {reading.record->annotated.empty() ? "not kept" : short_hash(reading.record->annotated)}});
    if (table.rows.empty()) return table;
    table.title = "Pictures";
    table.heads = {"Reading", "File's name", "Measured picture", "Annotated picture"};
    table.widths = {1, 3, 2, 2};
    table.below = "Pictures are named by the first 12 digits of their SHA-256; the whole ones follow.";
    return table;
}

ReportTable hashes_table(const std::vector<ReadReadings>& areas) {
    ReportTable table;
    std::vector<std::pair<std::string, std::string>> seen;  // what, hash
    const auto add = [&](const char* what, const std::string& hash) {
        const bool there =
            std::any_of(seen.begin(), seen.end(), [&](const auto& entry) { return entry.second == hash; });
        if (!hash.empty() && !there) seen.emplace_back(what, hash);
    };
    for (const ReadReadings& readings : areas)
        for (const ReadReading& reading : readings) {
            add("measured picture", reading.record->source);
            add("annotated picture", reading.record->annotated);
            add("saved calibration", reading.record->calibration);
        }
    for (const auto& [what, hash] : seen) table.rows.push_back({{what}, {hash}});
    if (table.rows.empty()) return table;
    table.title = "SHA-256 of what is kept";
    table.heads = {"File", "SHA-256 (FIPS 180-4)"};
    table.widths = {1.6, 6};
    return table;
}

}  // namespace tonemend
