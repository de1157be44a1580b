#include "tests/record/report/report_dossier.h"

#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>

#include "measure/second_light.h"
#include "record/annotated_picture.h"
#include "record/comparison_json.h"
#include "record/kept_reading_json.h"
#include "record/second_light_json.h"
#include "record/store/sha256.h"
#include "tests/record/practice_reading.h"

namespace tonemend::testing {
namespace {

// The practice bench with a repair so far off, under a lamp.
struct BenchPicture {
    BenchPicture(double difference, const std::string& lamp, int width = 640, int height = 480) {
        PracticeOptions options;
        options.width = width, options.height = height, options.bits = 8;
        options.difference = difference, options.lamp = lamp, options.wood = "oak";
        const PracticeScene scene = make_scene(options);
        frame = std::make_shared<const Frame>(render(scene));
        const FoundCard card = find_card(*frame).value();
        calibration = std::make_shared<const Calibration>(PracticeReading::calibrate(*frame, card));
        comparison = compare_regions(*frame, *calibration, rectangle(scene.original.region),
                                     rectangle(scene.repair.region));
    }
    std::shared_ptr<const Frame> frame;
    std::shared_ptr<const Calibration> calibration;
    Comparison comparison;
};

JobDossier::ReadingDossier dossier_of(const BenchPicture& bench, int number, ReadingRole role) {
    JobDossier::ReadingDossier dossier;
    ReadingRecord& record = dossier.record;
    const Comparison& comparison = bench.comparison;
    record.uid = fmt::format("reading-{}", number), record.number = number, record.role = role;
    record.taken = fmt::format("2026-11-{:02}T09:{:02}:00Z", 2 + number % 28, number % 60);
    record.picture = fmt::format("seat-{}.jpg", number);
    record.original = comparison.original.lab, record.repair = comparison.repair.lab;
    record.de2000 = comparison.difference.de2000, record.u95 = comparison.difference.de2000_u95;
    record.tolerance = comparison.tolerance, record.verdict = comparison.verdict;
    record.unfit = comparison.unfit();
    record.light = "CIE-D65", record.software = "tonemend 1.0.0";
    ReadingToKeep kept{record.picture, record.taken, {}, *bench.calibration, comparison, std::nullopt};
    dossier.text = reading_json(kept, "").dump();
    return dossier;
}

void keep_picture(ReportDossier& job, JobDossier::ReadingDossier& reading, const BenchPicture& bench) {
    const AnnotatedPicture picture = annotate_picture(*bench.frame, *bench.calibration, bench.comparison);
    reading.record.annotated = sha256(picture);
    reading.record.source = sha256(std::as_bytes(std::span(bench.frame->samples)));
    job.files[reading.record.annotated] = picture;
}

ComparisonRecord second_light() {
    std::vector<PairUnderOne> lights;
    for (const char* light : {"CIE-D65", "CIE-A"}) {
        const BenchPicture bench(1.5, light);
        lights.push_back({{light == std::string("CIE-A") ? "old bulb" : "window", parse_light(light), {}},
                          bench.calibration,
                          bench.comparison});
    }
    ComparisonRecord record;
    record.uid = "pair-1", record.kind = ComparisonKind::second_light, record.made = "2026-11-06T15:00:00Z";
    record.text = to_json(hold_against_first(std::move(lights))).dump();
    return record;
}

ReportDossier started() {
    ReportDossier job;
    job.dossier.job.number = 12, job.dossier.job.name = "Hall chair, seat";
    job.dossier.job.client = "A. Client-Name", job.dossier.job.note = "Call A. Client-Name before Friday.";
    job.dossier.job.started = "2026-11-02T08:00:00Z", job.dossier.job.closed = "2026-11-09T16:30:00Z";
    JobDossier::PieceDossier piece;
    piece.piece.name = "Hall chair", piece.piece.wood = "Oak";
    piece.areas.emplace_back().area.name = "Seat, front left";
    piece.areas[0].area.note = "A let-in patch, 40 by 60 mm.";
    job.dossier.pieces.push_back(std::move(piece));
    return job;
}

FinishingStep step(int place, StepKind kind, const std::string& colourant, const std::string& carrier,
                   const std::string& dilution, const std::string& note = {}) {
    FinishingStep one;
    one.uid = fmt::format("step-{}", place), one.place = place, one.kind = kind;
    one.colourant = colourant, one.carrier = carrier, one.dilution = dilution, one.note = note;
    one.done = fmt::format("2026-11-{:02}T10:30:00Z", 2 + place % 28);
    return one;
}

}  // namespace

ReportDossier practised_job(int width) {
    ReportDossier job = started();
    auto& area = job.area();
    int number = 0;
    for (const double difference : {7.0, 3.0, 0.4}) {
        const BenchPicture bench(difference, "CIE-D65", width, width * 3 / 4);
        ++number;
        auto& reading = area.readings.emplace_back(dossier_of(bench, number,
                                                              number == 1   ? ReadingRole::before
                                                              : number == 3 ? ReadingRole::after
                                                                            : ReadingRole::during));
        keep_picture(job, reading, bench);
    }
    area.comparisons.push_back(second_light());
    area.steps = {
        step(1, StepKind::sand, "", "", ""),
        step(2, StepKind::dye, "walnut dye", "alcohol", "3:1"),
        step(3, StepKind::dye, "walnut dye", "alcohol", "5:1", "Only where it was still too light."),
        step(4, StepKind::seal, "shellac", "alcohol", "2:1"),
        step(5, StepKind::glaze, "umber glaze", "oil", "0:1", "Wiped off along the grain."),
        step(6, StepKind::clear, "satin varnish", "mineral spirits", "1:10")};
    area.steps[0].grit = 180;
    area.steps[1].wait_minutes = 45, area.steps[3].wait_minutes = 150, area.steps[4].wait_minutes = 1440;
    area.steps[5].coats = 2, area.steps[5].done.clear(), area.steps[5].wait_minutes = 3 * 1440;
    return job;
}

ReportDossier long_job(int readings, int steps) {
    ReportDossier job = started();
    auto& area = job.area();
    const JobDossier::ReadingDossier first = dossier_of(BenchPicture(3, "CIE-D65"), 1, ReadingRole::during);
    for (int number = 1; number <= readings; ++number) {
        auto& reading = area.readings.emplace_back(first);
        ReadingRecord& record = reading.record;
        record.number = number, record.uid = fmt::format("reading-{}", number);
        // 10.1, 10.2, …: each number is there once.
        record.de2000 = 10 + 0.1 * number, record.u95 = 0.2;
        record.repair.L = record.original.L + 12 - 0.2 * number;
        record.source = sha256(fmt::format("source {}", number));
    }
    for (int place = 1; place <= steps; ++place)
        area.steps.push_back(step(place, StepKind::toner, fmt::format("toner number {}", place), "lacquer",
                                  "4:1", "Three light passes, across and along."));
    return job;
}

ReportDossier awkward_job() {
    ReportDossier job = started();
    job.dossier.job.name = "\"Chair\" <script>alert('x')</script> & sons";
    auto& area = job.area();
    area.area.name = "כסא עתיק";
    area.area.note = "\xff\xfe broken bytes,\x01 a control,\r\ntwo lines, 🪑 and 🎨";
    area.readings.push_back(dossier_of(BenchPicture(3, "CIE-D65"), 1, ReadingRole::during));
    area.readings.push_back(area.readings[0]);
    area.readings[1].record.number = 2, area.readings[1].record.annotated = std::string(64, '0');
    area.readings[1].text =
        "{\"schema\":\"tonemend.comparison/1\",\"light\":7,\"warnings\":[1,{\"text\":3}],";
    area.readings.push_back(area.readings[0]);
    area.readings[2].record.number = 3, area.readings[2].record.unfit = true;
    area.readings[2].record.software.clear();
    area.readings[2].record.light = "</td><td>lamp";
    area.readings[2].text =
        R"({"schema":"tonemend.comparison/1","original":{"lab_u95":[1,"x",3]},"warnings":[{"text":"<b>glare</b>","unfit":true}],"light":{"card":5}})";
    area.steps = {
        step(1, StepKind::dye, long_word, "<water>", "2:1", std::string(200, 'n') + " " + long_word),
        step(2, StepKind::other, "", "", "a lot"), step(3, StepKind::clear, "שרף", "", "", "")};
    area.steps[1].wait_minutes = -5;
    for (int line = 0; line < 400; ++line)
        area.steps[2].note += fmt::format("Line {} of a long note.\n", line);
    ComparisonRecord damaged;
    damaged.kind = ComparisonKind::second_light, damaged.text = "{]";
    area.comparisons.push_back(damaged);
    return job;
}

JobDossier empty_job(bool with_area) {
    JobDossier dossier;
    if (with_area) dossier.pieces.emplace_back().areas.emplace_back();
    return dossier;
}

}  // namespace tonemend::testing
