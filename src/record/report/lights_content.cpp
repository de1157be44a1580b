#include <fmt/format.h>

#include <algorithm>

#include "measure/light_words.h"
#include "record/number_text.h"
#include "record/report/area_content.h"
#include "record/report/report_words.h"

namespace tonemend {
namespace {

std::string known_value(std::optional<double> value, std::optional<double> u95) {
    return value ? value_text(*value, u95) : not_recorded;
}

std::string said_or_not(const std::string& text) {
    return text.empty() ? not_recorded : text;
}

std::string of_readings(const ComparisonRecord& comparison, const ReadReadings& readings) {
    std::vector<int> numbers;
    for (const ReadReading& reading : readings)
        if (reading.record->uid == comparison.first || reading.record->uid == comparison.second)
            numbers.push_back(reading.record->number);
    if (numbers.empty()) return {};
    return fmt::format(", {} {}", numbers.size() == 1 ? "reading" : "readings", numbers_text(numbers));
}

}  // namespace

ReportTable lights_table(const std::vector<ComparisonRecord>& comparisons, const ReadReadings& readings,
                         std::vector<std::string>& words) {
    ReportTable table;
    for (const ComparisonRecord& comparison : comparisons) {
        if (comparison.kind != ComparisonKind::second_light) continue;
        const PairFacts facts = pair_facts(comparison.text);
        const std::string when = when_text(comparison.made) + of_readings(comparison, readings);
        if (facts.lights.empty())
            words.push_back(fmt::format("{}: what was read is {}.", when, not_recorded));
        for (std::size_t i = 0; i < facts.lights.size(); ++i) {
            const LightFacts& light = facts.lights[i];
            const bool first = i == 0;
            table.rows.push_back(
                {{first ? when : ""},
                 {said_or_not(light.name)},
                 {known_value(light.de2000, light.de2000_u95)},
                 {said_or_not(light.verdict), mark_of(light.verdict)},
                 {first ? nothing_there : known_value(light.index, light.index_u95)},
                 {first ? nothing_there : known_value(light.parting, light.parting_u95)},
                 {first ? "light one" : said_or_not(light.change_verdict), mark_of(light.change_verdict)}});
            if (!light.words.empty()) words.push_back(light.words);
        }
    }
    if (table.rows.empty()) return table;
    table.title = "In a second light";
    table.heads = {
        "Compared", "Light", "ΔE2000", "Verdict there", "Index", "Parts by", "When the light changes"};
    table.widths = {2.2, 2.4, 1.5, 2.1, 1.5, 1.5, 2};
    table.below = fmt::format(
        "Index: special metamerism index (CIE 15), how far the two part in this light had they matched in "
        "light one. {}",
        beyond_the_camera());
    return table;
}

}  // namespace tonemend
