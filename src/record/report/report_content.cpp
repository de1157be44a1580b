#include "record/report/report_content.h"

#include <fmt/format.h>

#include <utility>

#include "picture/text_line.h"
#include "record/number_text.h"
#include "record/report/area_content.h"
#include "record/report/report_cautions.h"
#include "record/report/report_words.h"

namespace tonemend {
namespace {

std::string named_or(const std::string& name, const char* otherwise) {
    return name.empty() ? otherwise : name;
}

std::string both_lines(const std::string& first, const std::string& second) {
    return first.empty() || second.empty() ? first + second : first + "\n" + second;
}

// The numbers in a sentence.
std::string statement_of(const ChosenPair& pair) {
    if (pair.after == nullptr) return {};
    const ReadingRecord& after = *pair.after->record;
    const std::string tolerance = number_text(after.tolerance, Sign::only_minus);
    const std::string now = value_text(after.de2000, after.u95);
    if (!pair.is_change()) return fmt::format("ΔE2000 {} (tolerance {}).", now, tolerance);
    const ReadingRecord& before = *pair.before->record;
    return fmt::format("ΔE2000 {} before, {} after (tolerance {}).", value_text(before.de2000, before.u95),
                       now, tolerance);
}

ReportFigure figure_of(const char* role, const ReadReading& reading) {
    return {fmt::format("{}: reading {}", role, reading.record->number), reading.record->annotated,
            reading.record->original, reading.record->repair};
}

ReportArea to_report_area(const JobDossier::PieceDossier& piece, const JobDossier::AreaDossier& dossier,
                          const ReadReadings& readings, Units units) {
    ReportArea area;
    area.title = fmt::format("{}: {}", named_or(piece.piece.name, "Unnamed piece"),
                             named_or(dossier.area.name, "unnamed area"));
    area.note = both_lines(piece.piece.note, dossier.area.note);
    const ChosenPair pair = choose_pair(readings);
    if (pair.after != nullptr) {
        const std::string verdict = pair.after->verdict();
        area.verdict = in_capitals(verdict);
        area.mark = mark_of(verdict);
        if (pair.is_change()) area.figures.push_back(figure_of("Before", *pair.before));
        area.figures.push_back(figure_of(pair.is_change() ? "After" : "The repair", *pair.after));
    } else {
        area.verdict = "NOT JUDGED";
    }
    area.statement = pair.after != nullptr ? statement_of(pair)
                     : readings.empty()    ? "No reading was kept."
                                           : "No reading is fit to judge by.";
    for (const ReadReading& reading : readings) area.points.push_back(to_point_of(reading));
    area.change = change_table(pair);
    area.readings = readings_table(readings);
    area.lights = lights_table(dossier.comparisons, readings, area.light_words);
    area.steps = steps_table(dossier.steps, units);
    area.warnings = warning_lines(readings);
    return area;
}

std::vector<ReportFact> job_facts(const JobDossier& dossier, const ReportOptions& options) {
    const Job& job = dossier.job;
    std::vector<ReportFact> facts{{"Job", std::to_string(job.number)}};
    if (options.with_client && !job.client.empty()) facts.push_back({"Client", job.client});
    facts.push_back({"Started", when_text(job.started)});
    facts.push_back({"Handed back", job.closed.empty() ? "not yet" : when_text(job.closed)});
    for (const JobDossier::PieceDossier& piece : dossier.pieces)
        facts.push_back({"Piece", fmt::format("{}; wood: {}", named_or(piece.piece.name, "unnamed"),
                                              named_or(piece.piece.wood, not_recorded))});
    if (dossier.pieces.empty()) facts.push_back({"Piece", not_recorded});
    if (options.with_client && !job.note.empty()) facts.push_back({"Note", job.note});
    return facts;
}

std::vector<std::string> terms() {
    return {
        "Original is the old finish, repair what was coloured to match it. Both were read from one picture, "
        "by a grey card in it, under the light of that picture.",
        "Colours are CIELAB (D50, 2°): L* is lightness, 0 black to 100 white; a* runs from green (minus) to "
        "red (plus), b* from blue (minus) to yellow (plus). ΔE2000 (CIEDE2000) is how far two colours are "
        "apart; about 1 is the least that most people notice side by side (common practice, no source). ± "
        "is the half width of a 95 % interval.",
        "match: ΔE2000 with its ± is within the tolerance. off: less its ± it is over twice the "
        "tolerance. undecided: the ± alone is over the tolerance. close: the rest. unfit: something spoiled "
        "the reading."};
}

}  // namespace

ReportContent report_content(const JobDossier& dossier, const ReportOptions& options,
                             const std::string& made) {
    ReportContent content;
    content.shop = options.shop;
    content.title = named_or(dossier.job.name, "Unnamed job");
    content.facts = job_facts(dossier, options);
    content.terms = terms();
    content.made = fmt::format("Made {} with Tonemend {}.", when_text(made), TONEMEND_VERSION);
    content.made_at = made;
    std::vector<ReadReadings> all;
    std::vector<FinishingStep> steps;
    for (const JobDossier::PieceDossier& piece : dossier.pieces)
        for (const JobDossier::AreaDossier& area : piece.areas) {
            ReadReadings readings;
            for (const JobDossier::ReadingDossier& reading : area.readings)
                readings.push_back({&reading.record, reading_facts(reading.text)});
            content.areas.push_back(to_report_area(piece, area, readings, options.units));
            steps.insert(steps.end(), area.steps.begin(), area.steps.end());
            all.push_back(std::move(readings));
        }
    content.cautions = cautions_for(steps);
    content.made_with = made_with_facts(all);
    content.files = files_table(all);
    content.hashes = hashes_table(all);
    return content;
}

}  // namespace tonemend
