#include "cli/job/job_text.h"

#include <fmt/format.h>

#include "record/number_text.h"
#include "record/report/reading_facts.h"

namespace tonemend {
namespace {

constexpr const char* reading_columns =
    "      {:>4}  {:<16}  {:<6}  {:>12} {:>6} {:>6}   {:>10} {:>6} {:>6}   {}\n";

std::string line_of(const ReadingRecord& reading) {
    const auto plain = [](double value) { return number_text(value, Sign::only_minus); };
    const Lab &original = reading.original, &repair = reading.repair;
    return fmt::format(fmt::runtime(reading_columns), reading.number, short_moment(reading.taken),
                       name(reading.role), plain(original.L), plain(original.a), plain(original.b),
                       plain(repair.L), plain(repair.a), plain(repair.b),
                       fmt::format("ΔE2000 {:.1f} {}   {}", reading.de2000, interval_text(reading.u95),
                                   reading.unfit ? "unfit" : name(reading.verdict)));
}

std::string say_comparison(const ComparisonRecord& comparison) {
    if (comparison.kind == ComparisonKind::before_after) {
        const PairChange change = pair_change(comparison.text);
        if (change.before == 0) return "before and after";
        return fmt::format("before, reading {}, and after, reading {}: {:.1f} {}", change.before,
                           change.after, std::abs(change.gain), change.gain < 0 ? "farther" : "nearer");
    }
    std::string text = "second light";
    for (const LightFacts& light : pair_facts(comparison.text).lights)
        text += fmt::format("{}{}{}{}", text.find(':') == std::string::npos ? ": " : ", ", light.name,
                            light.de2000 ? fmt::format(" ΔE2000 {:.1f}", *light.de2000) : "",
                            light.change_verdict.empty() ? "" : " " + light.change_verdict);
    return text;
}

std::string area_lines(const JobDossier::AreaDossier& area) {
    std::string text = fmt::format("    area {}\n", area.area.name);
    if (!area.area.note.empty()) text += fmt::format("      {}\n", area.area.note);
    for (const FinishingStep& step : area.steps) text += "      " + say_step(step);
    if (!area.readings.empty())
        text += fmt::format(fmt::runtime(reading_columns), "no.", "taken (UTC)", "for", "original: L*", "a*",
                            "b*", "repair: L*", "a*", "b*", "");
    for (const JobDossier::ReadingDossier& reading : area.readings) text += line_of(reading.record);
    for (const ComparisonRecord& comparison : area.comparisons)
        text += fmt::format("      {}  {}\n", short_moment(comparison.made), say_comparison(comparison));
    return text;
}

}  // namespace

std::string short_moment(const std::string& moment) {
    return moment.size() < 16 ? moment : moment.substr(0, 10) + " " + moment.substr(11, 5);
}

std::string list_jobs(const std::vector<JobSummary>& jobs) {
    if (jobs.empty()) return "  no jobs yet; 'tonemend job start NAME' starts one\n";
    std::string text;
    for (const JobSummary& summary : jobs) {
        const Job& job = summary.job;
        text += fmt::format("  {:>5}  {:<10}  {}{}\n", job.number, job.started.substr(0, 10), job.name,
                            job.closed.empty() ? "" : "   (closed)");
        std::string more = summary.pieces;
        if (!summary.woods.empty()) more += fmt::format("{}{}", more.empty() ? "" : "; ", summary.woods);
        if (summary.readings > 0)
            more += fmt::format("{}{} reading{}, the newest ΔE2000 {:.1f}", more.empty() ? "" : "; ",
                                summary.readings, summary.readings == 1 ? "" : "s", summary.de2000);
        if (!more.empty()) text += fmt::format("         {}\n", more);
    }
    return text;
}

std::string say_step(const FinishingStep& step) {
    std::string text = fmt::format("step {}  {}", step.place, name(step.kind));
    if (!step.colourant.empty()) text += fmt::format(" '{}'", step.colourant);
    if (!step.carrier.empty()) text += fmt::format(" in {}", step.carrier);
    if (!step.dilution.empty()) text += fmt::format(", thinned {}", step.dilution);
    if (step.coats != 1) text += fmt::format(", {} coats", step.coats);
    if (step.grit > 0) text += fmt::format(", on grit {}", step.grit);
    if (step.wait_minutes > 0) text += fmt::format(", dry after {:g} minutes", step.wait_minutes);
    text += step.done.empty() ? "   planned" : "   done " + short_moment(step.done);
    if (!step.note.empty()) text += "   " + step.note;
    return text + "\n";
}

std::string say_job(const JobDossier& dossier) {
    const Job& job = dossier.job;
    std::string text =
        fmt::format("  job {}  {}\n  started {}{}\n", job.number, job.name, short_moment(job.started),
                    job.closed.empty() ? ", open" : ", closed " + short_moment(job.closed));
    if (!job.client.empty()) text += fmt::format("  for {}\n", job.client);
    if (!job.note.empty()) text += fmt::format("  {}\n", job.note);
    for (const JobDossier::PieceDossier& piece : dossier.pieces) {
        text += fmt::format("  {}{}\n", piece.piece.name,
                            piece.piece.wood.empty() ? "" : ", " + piece.piece.wood);
        if (!piece.piece.note.empty()) text += fmt::format("    {}\n", piece.piece.note);
        for (const JobDossier::AreaDossier& area : piece.areas) text += area_lines(area);
    }
    return text;
}

std::string say_before_after(const BeforeAfter& pair) {
    std::string text = fmt::format("  before, reading {}: ΔE2000 {:.1f} {}; after, reading {}: {:.1f} {}\n",
                                   pair.before.number, pair.before.de2000, interval_text(pair.before.u95),
                                   pair.after.number, pair.after.de2000, interval_text(pair.after.u95));
    text += fmt::format(
        "  the repair moved L* {}, a* {}, b* {}\n", number_text(pair.repair_moved[0], Sign::always),
        number_text(pair.repair_moved[1], Sign::always), number_text(pair.repair_moved[2], Sign::always));
    if (pair.original_moved > 1)
        text += fmt::format(
            "  the original reads ΔE2000 {:.1f} apart in the two: other light, or another place of it; hold "
            "each repair "
            "against its own\n",
            pair.original_moved);
    return text;
}

}  // namespace tonemend
