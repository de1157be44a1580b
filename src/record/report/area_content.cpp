#include "record/report/area_content.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "colour/difference.h"
#include "record/number_text.h"
#include "record/report/report_words.h"

namespace tonemend {
namespace {

using Three = std::optional<std::array<double, 3>>;

constexpr std::array axis_names{"L*", "a*", "b*"};

std::optional<double> at(const Three& three, std::size_t k) {
    return three ? std::optional((*three)[k]) : std::nullopt;
}

double axis(const Lab& lab, std::size_t k) {
    return k == 0 ? lab.L : k == 1 ? lab.a : lab.b;
}

// Of a difference between two pictures, whose errors are taken as each its own.
std::optional<double> joined(std::optional<double> u, std::optional<double> v) {
    if (!u || !v) return std::nullopt;
    return std::hypot(*u, *v);
}

}  // namespace

std::string ReadReading::verdict() const {
    return unfit() ? "unfit" : std::string(name(record->verdict));
}

ChosenPair choose_pair(const ReadReadings& readings) {
    ChosenPair pair;
    for (const ReadReading& reading : readings)
        if (!reading.unfit()) pair.after = &reading;
    for (const ReadReading& reading : readings)
        if (reading.record->role == ReadingRole::after) pair.after = &reading;
    if (pair.after == nullptr) return pair;
    const ReadReading* first_fit = nullptr;
    for (const ReadReading& reading : readings) {
        if (reading.record->role == ReadingRole::before) pair.before = &reading;
        if (first_fit == nullptr && !reading.unfit()) first_fit = &reading;
        if (&reading == pair.after) break;  // what came later is no before
    }
    if (pair.before == nullptr) pair.before = first_fit;
    return pair;
}

ReportPoint to_point_of(const ReadReading& reading) {
    const ReadingRecord& record = *reading.record;
    return {record.number, record.original, record.repair, reading.facts.original_u95, reading.unfit()};
}

ReportTable change_table(const ChosenPair& pair) {
    ReportTable table;
    if (pair.after == nullptr) return table;
    const ReadReading& after = *pair.after;
    table.title = pair.is_change() ? "Before and after" : "The reading";
    if (!pair.is_change()) {
        table.heads = {"", "Original", "Repair", "Repair minus original"};
        table.widths = {1.2, 2, 2, 2};
        for (std::size_t k = 0; k < 3; ++k) {
            const double original = axis(after.record->original, k), repair = axis(after.record->repair, k);
            table.rows.push_back({{axis_names[k]},
                                  {value_text(original, at(after.facts.original_u95, k))},
                                  {value_text(repair, at(after.facts.repair_u95, k))},
                                  {change_text(repair - original, std::nullopt)}});
        }
        table.rows.push_back({{"ΔE2000"}, {""}, {""}, {value_text(after.record->de2000, after.record->u95)}});
        return table;
    }
    const ReadReading& before = *pair.before;
    table.heads = {
        "", "Original, before", "Repair, before", "Original, after", "Repair, after", "The repair moved"};
    table.widths = {1.2, 2, 2, 2, 2, 2};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto u_before = at(before.facts.repair_u95, k), u_after = at(after.facts.repair_u95, k);
        const double moved = axis(after.record->repair, k) - axis(before.record->repair, k);
        table.rows.push_back(
            {{axis_names[k]},
             {value_text(axis(before.record->original, k), at(before.facts.original_u95, k))},
             {value_text(axis(before.record->repair, k), u_before)},
             {value_text(axis(after.record->original, k), at(after.facts.original_u95, k))},
             {value_text(axis(after.record->repair, k), u_after)},
             {change_text(moved, joined(u_before, u_after))}});
    }
    table.rows.push_back({{"ΔE2000"},
                          {""},
                          {value_text(before.record->de2000, before.record->u95)},
                          {""},
                          {value_text(after.record->de2000, after.record->u95)},
                          {change_text(after.record->de2000 - before.record->de2000,
                                       joined(before.record->u95, after.record->u95))}});
    const double parted = ciede2000(before.record->original, after.record->original).value;
    if (parted > 1)
        table.below = fmt::format(
            "The original itself reads ΔE2000 {:.1f} apart in the two: another light, or another place of "
            "it. Hold "
            "each repair against its own original. ",
            parted);
    table.below +=
        "± is the half width of a 95 % interval. That of a change counts both readings' errors as "
        "independent; what one "
        "camera under one lamp gets wrong alike in both falls out, so that the change is known better than "
        "that.";
    return table;
}

ReportTable readings_table(const ReadReadings& readings) {
    ReportTable table;
    if (readings.empty()) return table;
    table.title = "All readings";
    table.heads = {"No.",    "Taken",   "For",  "Original L*, a*, b*", "Repair L*, a*, b*",
                   "ΔE2000", "Verdict", "Light"};
    table.widths = {0.8, 2.2, 1.3, 2.4, 2.4, 1.7, 2.3, 2};
    for (const ReadReading& reading : readings) {
        const ReadingRecord& record = *reading.record;
        const std::string verdict = reading.verdict();
        std::string light = record.light.empty() ? reading.facts.stated_light : record.light;
        if (light.empty()) light = "not stated";
        table.rows.push_back({{std::to_string(record.number)},
                              {when_text(record.taken)},
                              {std::string(name(record.role))},
                              {lab_text(record.original)},
                              {lab_text(record.repair)},
                              {value_text(record.de2000, record.u95)},
                              {verdict, mark_of(verdict)},
                              {std::move(light)}});
    }
    return table;
}

std::vector<std::string> warning_lines(const ReadReadings& readings) {
    struct Warned {
        ReadingFacts::Said said;
        std::vector<int> numbers;
    };
    std::vector<Warned> all;
    for (const ReadReading& reading : readings)
        for (const ReadingFacts::Said& said : reading.facts.warnings) {
            auto found = std::find_if(all.begin(), all.end(), [&](const Warned& warned) {
                return warned.said.text == said.text && warned.said.unfit == said.unfit;
            });
            if (found == all.end()) found = all.insert(all.end(), {said, {}});
            if (found->numbers.empty() || found->numbers.back() != reading.record->number)
                found->numbers.push_back(reading.record->number);
        }
    std::vector<std::string> lines;
    for (const Warned& warned : all)
        lines.push_back(fmt::format("{} {}{}: {}", warned.numbers.size() == 1 ? "Reading" : "Readings",
                                    numbers_text(warned.numbers), warned.said.unfit ? ", unfit" : "",
                                    warned.said.text));
    std::vector<int> unread;
    for (const ReadReading& reading : readings)
        if (!reading.facts.whole) unread.push_back(reading.record->number);
    if (!unread.empty())
        lines.push_back(fmt::format("{} {}: the text is missing or damaged; what stood against it is {}.",
                                    unread.size() == 1 ? "Reading" : "Readings", numbers_text(unread),
                                    not_recorded));
    return lines;
}

}  // namespace tonemend
