#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "cli/calibration_options.h"
#include "cli/check_tolerance.h"
#include "cli/commands.h"
#include "cli/destinations.h"
#include "cli/drying_mark.h"
#include "cli/further_lights.h"
#include "cli/output.h"
#include "cli/terminal_summary.h"
#include "measure/comparison.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/annotated_picture.h"
#include "record/comparison_json.h"
#include "record/earlier_light.h"
#include "record/job_folder.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

struct CompareOptions {
    std::string picture, original, repair;
    CalibrationOptions light;
    FurtherLightOptions further;
    double tolerance = default_tolerance;
    std::string drying;  // log of the repair's drying
    bool json = false;
    std::string save_picture;
    std::string job;
};

// The newest reading of the job is the one that this one is compared with by whoever looks at the row.
void hold_against_job(const std::string& job, const PictureLight& light, Comparison& comparison) {
    const std::vector<KeptReading> earlier = JobFolder(job).list();
    if (earlier.empty()) return;
    for (Warning& warning : warn_of_other_light(earlier.back().number, earlier.back().light, light))
        comparison.warnings.push_back(std::move(warning));
}

ExitStatus compare(const CompareOptions& options) {
    const Region original = parse_region(options.original, "--original");
    const Region repair = parse_region(options.repair, "--repair");
    require_destinations(options.picture, options.save_picture, options.job);
    const Frame frame = read_frame(options.picture, options.light);
    const Calibration calibration = calibrate(frame, options.light);
    Comparison comparison =
        options.further.pictures.empty()
            ? compare_regions(frame, calibration, original, repair, options.tolerance)
            : compare_under_further_lights(frame, calibration, options.light, options.further, original,
                                           repair, options.tolerance);
    const PictureLight light = light_of(frame, calibration);
    if (!options.job.empty()) hold_against_job(options.job, light, comparison);
    if (!options.drying.empty()) mark_if_settling(comparison, options.picture, options.drying);
    std::string kept;
    if (!options.save_picture.empty() || !options.job.empty()) {
        const AnnotatedPicture annotated = annotate_picture(frame, calibration, comparison);
        // The job first: a folder that cannot be made leaves no copy behind.
        if (!options.job.empty())
            kept = JobFolder(options.job)
                       .keep({std::filesystem::path(options.picture).filename().string(), utc_now(),
                              annotated, calibration, comparison, std::nullopt, light})
                       .place;
        if (!options.save_picture.empty()) save_annotated_picture(annotated, options.save_picture);
    }
    if (options.json) {
        print_out(to_text(to_json(calibration, comparison)));
    } else {
        print_out(summarise(frame, calibration, comparison, detect_swatches()) +
                  (kept.empty() ? "" : fmt::format("  kept in {}\n", one_line(kept, 400))));
    }
    return comparison.unfit() ? ExitStatus::unfit : ExitStatus::measured;
}

}  // namespace

void add_compare_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<CompareOptions>();
    CLI::App* command =
        app.add_subcommand("compare", "Compare a repair with the original beside it, in one picture");
    command->add_option("picture", options->picture, "JPEG, PNG, TIFF, WebP or camera raw")->required();
    command
        ->add_option("--original", options->original,
                     "Region of the old finish: x,y,w,h or 'x1,y1 x2,y2 x3,y3 …'")
        ->required();
    command->add_option("--repair", options->repair, "Region of the repair, likewise")->required();
    add_calibration_options(*command, options->light);
    add_saved_calibration_option(*command, options->light);
    add_further_light_options(*command, options->further);
    command->add_option("--tolerance", options->tolerance, "ΔE2000 at which the repair passes, 0.05 to 20")
        ->check(check_tolerance)
        ->capture_default_str();
    command->add_option(
        "--drying", options->drying,
        "Log of 'tonemend drying': a reading made before the repair had settled is marked so");
    command->add_flag("--json", options->json, "Print one JSON object and nothing else");
    command->add_option("--save-picture", options->save_picture,
                        "Write an annotated copy (PNG); one that is there is replaced");
    command->add_option("--job", options->job,
                        "Keep the reading and the annotated copy in this folder, numbered");
    command->callback([options, &status] { status = compare(*options); });
}

}  // namespace tonemend
