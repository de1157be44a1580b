#include "record/report/report_content.h"

#include <fmt/format.h>

#include <algorithm>

#include "picture/input_error.h"
#include "record/report/area_content.h"
#include "record/report/mix_text.h"
#include "record/report/report_cautions.h"
#include "record/report/report_words.h"
#include "tests/catch.h"
#include "tests/record/report/report_page.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::string all_cells(const ReportTable& table) {
    std::string text;
    for (const auto& row : table.rows)
        for (const ReportCell& cell : row) text += cell.text + "|";
    return text;
}

// Readings of these roles; a capital letter is an unfit one. Numbered from 1.
std::string chosen(const std::string& roles) {
    std::vector<ReadingRecord> records;
    for (const char role : roles) {
        ReadingRecord& record = records.emplace_back();
        record.number = static_cast<int>(records.size());
        record.unfit = role < 'a';
        record.role = role == 'b' || role == 'B'   ? ReadingRole::before
                      : role == 'a' || role == 'A' ? ReadingRole::after
                                                   : ReadingRole::during;
    }
    ReadReadings readings;
    for (const ReadingRecord& record : records) readings.push_back({&record, {}});
    const ChosenPair pair = choose_pair(readings);
    const auto number = [](const ReadReading* reading) {
        return reading ? std::to_string(reading->record->number) : "none";
    };
    return number(pair.before) + " to " + number(pair.after);
}

FinishingStep thinned(const std::string& dilution, const std::string& thinner = "alcohol") {
    FinishingStep step;
    step.colourant = "dye", step.carrier = thinner, step.dilution = dilution;
    return step;
}

FinishingStep step_of(StepKind kind, const std::string& carrier = {}, const std::string& colourant = {}) {
    FinishingStep step;
    step.kind = kind, step.carrier = carrier, step.colourant = colourant;
    return step;
}

bool any_holds(const std::vector<std::string>& lines, const std::string& word) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const std::string& line) { return line.find(word) != std::string::npos; });
}

}  // namespace

TEST_CASE(
    "A report's before and after are the last ones taken as such, else the first and the last fit one, and "
    "in that order") {
    CHECK(chosen("bda") == "1 to 3");
    CHECK(chosen("bdbdaad") == "3 to 6");
    CHECK(chosen("ddd") == "1 to 3");
    CHECK(chosen("DddD") == "2 to 3");
    CHECK(chosen("Bdd") == "1 to 3");
    CHECK(chosen("bab") == "1 to 2");
    CHECK(chosen("dB") == "1 to 1");
    CHECK(chosen("ddb") == "3 to 3");
    CHECK(chosen("A") == "none to 1");
    CHECK(chosen("d") == "1 to 1");
    CHECK(chosen("DD") == "none to none");
    CHECK(chosen("") == "none to none");
}

TEST_CASE("A report holds the numbers of the records, and what their texts say of card, light and software") {
    const ReportDossier job = practised_job();
    const ReportContent content = report_content(job.dossier, {}, report_time);
    REQUIRE(content.areas.size() == 1);
    const ReportArea& area = content.areas[0];
    CHECK(area.title == "Hall chair: Seat, front left");
    REQUIRE(area.readings.rows.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        const ReadingRecord& record = job.dossier.pieces[0].areas[0].readings[i].record;
        // The ± is rounded up, as number_text.h says.
        CHECK(area.readings.rows[i][5].text.starts_with(fmt::format("{:.1f} ± ", record.de2000)));
        CHECK(std::stod(area.readings.rows[i][5].text.substr(area.readings.rows[i][5].text.find("±") + 3)) >=
              record.u95 - 1e-9);
        CHECK(area.readings.rows[i][6].text == name(record.verdict));
    }
    CHECK(area.figures.size() == 2);
    CHECK(area.figures[0].title == "Before: reading 1");
    CHECK(area.figures[1].title == "After: reading 3");
    CHECK(area.points.size() == 3);
    CHECK(area.points[0].original_u95.has_value());
    REQUIRE(content.made_with.size() == 1);
    CHECK(content.made_with[0].title == "Readings 1–3");
    std::string facts;
    for (const ReportFact& fact : content.made_with[0].facts) facts += fact.label + ": " + fact.text + "\n";
    CHECK_THAT(facts, contains("Card: six-step-card"));
    CHECK_THAT(facts, contains("Light as stated: CIE-D65"));
    CHECK_THAT(facts, contains("Software: tonemend 1.0.0"));
    CHECK(facts.find(not_recorded) == std::string::npos);
    const std::string hash = job.dossier.pieces[0].areas[0].readings[0].record.annotated;
    CHECK_THAT(all_cells(content.files), contains(hash.substr(0, 12) + "|"));
    CHECK_THAT(all_cells(content.hashes), contains(hash + "|"));
}

TEST_CASE("A report tells what a second light made of the pair") {
    const ReportContent content = report_content(practised_job().dossier, {}, report_time);
    const ReportTable& lights = content.areas.at(0).lights;
    REQUIRE(lights.rows.size() == 2);
    CHECK(lights.rows[0][1].text == "window (CIE-D65)");
    CHECK(lights.rows[1][1].text == "old bulb (CIE-A)");
    CHECK_THAT(lights.rows[1][4].text, contains(" ± "));
    CHECK(lights.rows[1][6].mark != ReportMark::none);
    CHECK_THAT(lights.below, contains("No camera knows"));
    REQUIRE(content.areas[0].light_words.size() == 1);
    CHECK_THAT(content.areas[0].light_words[0], contains("Under old bulb the repair"));
}

TEST_CASE("The change that a report gives is after minus before") {
    const ReportDossier job = practised_job();
    const auto& readings = job.dossier.pieces[0].areas[0].readings;
    const ReportArea area = report_content(job.dossier, {}, report_time).areas.at(0);
    const double moved = readings[2].record.repair.L - readings[0].record.repair.L;
    REQUIRE(moved > 1);
    CHECK(area.change.rows.at(0).at(5).text.starts_with(fmt::format("+{:.1f} ± ", moved)));
    const double gain = readings[0].record.de2000 - readings[2].record.de2000;
    REQUIRE(gain > 1);
    CHECK(area.change.rows.at(3).at(5).text.starts_with(fmt::format("−{:.1f} ± ", gain)));
}

TEST_CASE("Recipes are given in parts and as amounts of a batch") {
    // 2 parts to 1 of 100 ml: two thirds and one third.
    CHECK(mix_text(thinned("2:1"), Units::metric) ==
          "2 parts alcohol to 1 part dye. For 100 ml: 66.7 ml alcohol, 33.3 ml dye");
    CHECK(mix_text(thinned("1:10"), Units::metric) ==
          "1 part alcohol to 10 parts dye. For 100 ml: 9.09 ml alcohol, 90.9 ml dye");
    // 4 US fluid ounces are 118.294 ml (NIST Special Publication 811: 29.573 53 ml each).
    CHECK(
        mix_text(thinned("2:1"), Units::us) ==
        "2 parts alcohol to 1 part dye. For 4 fl oz: 2.67 fl oz (78.9 ml) alcohol, 1.33 fl oz (39.4 ml) dye");
    CHECK(mix_text(thinned("7:1"), Units::us) ==
          "7 parts alcohol to 1 part dye. For 4 fl oz: 3.50 fl oz (103.5 ml) alcohol, 0.500 fl oz (14.8 ml) "
          "dye");
    CHECK(mix_text(thinned("0:1"), Units::metric) == "undiluted");
    CHECK(mix_text(thinned("0.5:1.5"), Units::metric) ==
          "0.5 parts alcohol to 1.5 parts dye. For 100 ml: 25.0 ml alcohol, 75.0 ml dye");
    CHECK(mix_text(thinned("2:1", ""), Units::metric).find("66.7 ml thinner") != std::string::npos);
    CHECK(mix_text(thinned("a lot"), Units::metric) == "a lot");
    CHECK(mix_text(thinned(""), Units::us).empty());
}

TEST_CASE("Steps that are not done are marked as planned") {
    const ReportTable steps = report_content(practised_job().dossier, {}, report_time).areas.at(0).steps;
    REQUIRE(steps.rows.size() == 6);
    CHECK(steps.rows[0][1].text == "Sand to 180 grit");
    CHECK(steps.rows[1][4].text == "45 min");
    CHECK(steps.rows[1][5].text == "2026-11-04 10:30 UTC");
    CHECK(steps.rows[5][5].text == "planned");
    CHECK_THAT(steps.below, contains("planned"));
}

TEST_CASE("A wait is given in minutes, hours or days") {
    CHECK(wait_text(0).empty());
    CHECK(wait_text(-5).empty());
    CHECK(wait_text(0.3) == "1 min");
    CHECK(wait_text(119) == "119 min");
    CHECK(wait_text(120) == "2 h");
    CHECK(wait_text(150) == "2 h 30 min");
    CHECK(wait_text(2 * 1440) == "2 d");
    CHECK(wait_text(2 * 1440 + 190) == "2 d 3 h");
    CHECK(wait_text(3 * 1440 - 5) == "3 d");
    CHECK(wait_text(std::nan("")).empty());
}

TEST_CASE("No line is broken between a number and its unit, and else it may be") {
    const auto marked = [](std::string text) {
        for (const std::size_t blank : unbroken_blanks(text)) text[blank] = '_';
        return text;
    };
    CHECK(marked("ΔE2000 6.9 ± 0.5 before, 0.4 ± 0.2 after") == "ΔE2000 6.9_±_0.5 before, 0.4_±_0.2 after");
    CHECK(marked("0.364 fl oz (10.8 ml) dye, 3 min") == "0.364_fl_oz (10.8_ml) dye, 3_min");
    CHECK(marked("2026-11-03 10:30 UTC") == "2026-11-03 10:30_UTC");
    CHECK(marked("2 mineral spirits, 3 dyes, a ± b, fl oz") == "2 mineral spirits, 3 dyes, a ± b, fl_oz");
    CHECK(marked("") == "");
    CHECK(marked(" ") == " ");
}

TEST_CASE("Runs of readings' numbers are drawn together") {
    CHECK(numbers_text({1, 2, 3, 5}) == "1–3, 5");
    CHECK(numbers_text({1, 2, 4}) == "1, 2, 4");
    CHECK(numbers_text({}).empty());
}

TEST_CASE("Each danger in a job's steps is cautioned of once, and the label comes first") {
    CHECK(cautions_for({}).empty());
    const auto sanded = cautions_for({step_of(StepKind::sand), step_of(StepKind::sand)});
    CHECK(sanded.size() == 3);
    CHECK(any_holds(sanded, "dust"));
    CHECK(any_holds(sanded, "lead"));
    CHECK_THAT(sanded.back(), contains("label and safety sheet, local rules and licensed practice"));
    CHECK(any_holds(cautions_for({step_of(StepKind::bleach)}), "never mix bleaches"));
    CHECK(any_holds(cautions_for({step_of(StepKind::dye, "alcohol")}), "ventilate"));
    CHECK(any_holds(cautions_for({step_of(StepKind::clear)}), "can burn"));
    CHECK_FALSE(any_holds(cautions_for({step_of(StepKind::dye, "Water")}), "can burn"));
    CHECK(any_holds(cautions_for({step_of(StepKind::dye, "Water")}), "respirator"));
    CHECK(any_holds(cautions_for({step_of(StepKind::glaze, "Linseed oil")}), "closed metal can"));
    CHECK_FALSE(any_holds(cautions_for({step_of(StepKind::seal, "alcohol", "shellac")}), "Rags"));
    CHECK(any_holds(cautions_for({step_of(StepKind::toner, "lacquer")}), "exhaust ventilation"));
}

TEST_CASE("What is missing or damaged is said in a report, and stops nothing") {
    const ReportContent content = report_content(awkward_job().dossier, {}, report_time);
    const ReportArea& area = content.areas.at(0);
    REQUIRE(area.warnings.size() == 3);
    CHECK(area.warnings[1] == "Reading 3, unfit: <b>glare</b>");
    CHECK_THAT(area.warnings[2], contains("Reading 2: the text is missing or damaged"));
    CHECK_FALSE(area.points.at(1).original_u95);
    CHECK_FALSE(area.points.at(2).original_u95);
    CHECK(area.lights.rows.empty());
    REQUIRE(area.light_words.size() == 1);
    CHECK_THAT(area.light_words[0], contains(not_recorded));
    REQUIRE(content.made_with.size() == 3);
    CHECK(content.made_with[1].facts.at(0).text == not_recorded);
    CHECK(content.made_with[2].facts.at(6).text == not_recorded);
}

TEST_CASE("Any beginning of a reading's text gives facts and no exception") {
    const std::string text = practised_job().area().readings[0].text;
    for (std::size_t length = 0; length < text.size(); length += 7)
        CHECK_FALSE(reading_facts(text.substr(0, length)).whole);
    CHECK(reading_facts(text).whole);
    for (const char* odd :
         {"[]", "7", "null",
          R"({"schema":"tonemend.comparison/1","original":[],"warnings":{},"light":null,"frame":3})"})
        CHECK(reading_facts(odd).warnings.empty());
    CHECK(
        pair_facts(
            R"({"schema":"tonemend.second-light/1","lights":[1,[],{}],"changes":[null,{"metamerism_index":[]}]})")
            .lights.size() == 3);
}

TEST_CASE("A job in which nothing is has a report that says so") {
    CHECK(report_content(empty_job(false), {}, report_time).areas.empty());
    const ReportContent content = report_content(empty_job(true), {}, report_time);
    REQUIRE(content.areas.size() == 1);
    CHECK(content.areas[0].statement == "No reading was kept.");
    CHECK(content.title == "Unnamed job");
    CHECK(content.cautions.empty());
}

TEST_CASE("The client and the job's note are left out of a report when that is wanted") {
    const ReportDossier job = practised_job();
    ReportOptions options;
    const auto names_client = [&] {
        const auto facts = report_content(job.dossier, options, report_time).facts;
        return std::any_of(facts.begin(), facts.end(), [](const ReportFact& fact) {
            return fact.text.find("Client-Name") != std::string::npos;
        });
    };
    CHECK(names_client());
    options.with_client = false;
    CHECK_FALSE(names_client());
}

TEST_CASE("Paper sizes are named, and others refused with their names") {
    CHECK(parse_paper_size("A4") == PaperSize::a4);
    CHECK(parse_paper_size("a5") == PaperSize::a5);
    CHECK(parse_paper_size("Letter") == PaperSize::letter);
    CHECK(parse_paper_size("legal") == PaperSize::legal);
    CHECK_THROWS_WITH(parse_paper_size("a3"), contains("a4, a5, letter or legal"));
}
