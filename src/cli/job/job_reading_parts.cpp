// Readings before and after, and an old job's original against today's.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/job/add_part.h"
#include "cli/job/job_parts.h"
#include "cli/job/job_text.h"
#include "cli/output.h"
#include "cli/run_compare.h"
#include "colour/difference.h"
#include "measure/reading.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

struct OriginalOptions {
    JobChoice choice;
    CalibrationOptions light;
    std::string picture, region;
    int number = 0;
};

ReadingRecord kept_original(JobStore& store, const OriginalOptions& options, const Job& job) {
    const Area area = store.find_area(job.uid, options.choice.area, options.choice.piece);
    const std::vector<ReadingRecord> readings = store.readings(area.uid);
    if (readings.empty())
        throw InputError(
            fmt::format("job {}, area {}: holds no reading to compare with", job.number, area.name));
    if (options.number == 0) return readings.front();
    const auto found = std::find_if(readings.begin(), readings.end(), [&](const ReadingRecord& reading) {
        return reading.number == options.number;
    });
    if (found == readings.end())
        throw InputError(
            fmt::format("job {}, area {}: holds no reading {}", job.number, area.name, options.number));
    return *found;
}

void compare_original(OriginalOptions& options) {
    const Region region = parse_region(options.region, "--region");
    const auto store = open_chosen(options.choice, StoreUse::reading);
    const Job job = store->find_job(options.choice.job);
    const ReadingRecord then = kept_original(*store, options, job);
    const Frame frame = read_frame(options.picture, options.light);
    const Reading now =
        read_region(frame, calibrate(frame, options.light), region, "--region", SampleSide::original);
    const Ciede2000 apart = ciede2000(then.original, now.lab);
    std::string text = fmt::format(
        "  the original in reading {}, {}: L* {:.1f}  a* {:.1f}  b* {:.1f}\n"
        "  the original today:              L* {:.1f}  a* {:.1f}  b* {:.1f}   ΔE2000 {:.1f}\n"
        "  since then: L* {}, a* {}, b* {}\n",
        then.number, short_moment(then.taken), then.original.L, then.original.a, then.original.b, now.lab.L,
        now.lab.a, now.lab.b, apart.value, number_text(now.lab.L - then.original.L, Sign::always),
        number_text(now.lab.a - then.original.a, Sign::always),
        number_text(now.lab.b - then.original.b, Sign::always));
    text += "  light, camera and card differ a little from day to day: a change of 1 or so may be theirs\n";
    print_out(text);
}

void add_taking(CLI::App& job, ExitStatus& status, const char* name, const char* help, ReadingRole role) {
    const auto options = std::make_shared<CompareOptions>();
    options->role = role;
    options->missing_job = MissingJob::refuse;
    CLI::App* part = job.add_subcommand(name, help);
    add_job_choice(*part, options->job);
    add_compare_options(*part, *options);
    add_area_choice(*part, options->job);
    part->callback([options, &status] { status = run_compare(*options); });
}

}  // namespace

void add_job_reading_parts(CLI::App& job, ExitStatus& status) {
    add_taking(job, status, "before", "Measure a picture and keep it as the reading before the work",
               ReadingRole::before);
    add_taking(job, status, "after",
               "Measure a picture, keep it as the reading after, and say what was gained",
               ReadingRole::after);
    const auto options = std::make_shared<OriginalOptions>();
    CLI::App* original =
        add_part(job, status, "original", "An old job's original against the same place today", options,
                 compare_original);
    add_job_choice(*original, options->choice);
    original->add_option("picture", options->picture, "JPEG, PNG, TIFF, WebP or camera raw, with the card")
        ->required();
    original->add_option("--region", options->region, "The original in it: x,y,w,h or 'x1,y1 x2,y2 …'")
        ->required();
    original->add_option("--reading", options->number, "Which reading of the job; else its first");
    add_calibration_options(*original, options->light);
    add_saved_calibration_option(*original, options->light);
    add_area_choice(*original, options->choice);
}

}  // namespace tonemend
