#include "cli/run_compare.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "calibrate/keep/named_lights.h"
#include "cli/check_tolerance.h"
#include "cli/destinations.h"
#include "cli/drying_mark.h"
#include "cli/job/job_text.h"
#include "cli/output.h"
#include "cli/terminal_summary.h"
#include "measure/comparison.h"
#include "picture/file_bytes.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"
#include "record/annotated_picture.h"
#include "record/comparison_json.h"
#include "record/earlier_light.h"
#include "record/kit/kit_shelf.h"
#include "record/store/area_readings.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

// The newest reading of the area is the one that this one is compared with by whoever looks at the row.
void hold_against_earlier(const ChosenArea& place, const PictureLight& light, Comparison& comparison) {
    const auto earlier = newest_reading(*place.store, place.area.uid);
    if (!earlier) return;
    for (Warning& warning : warn_of_other_light(earlier->number, earlier->light, light))
        comparison.warnings.push_back(std::move(warning));
}

// What it takes to measure the picture again. Its own file is kept, byte for byte, unless another profile was
// given than it holds.
ReadingPicture source_of(const CompareOptions& options, const Frame& frame, const Calibration& calibration,
                         const Region& original, const Region& repair) {
    ReadingPicture source{std::make_shared<const Frame>(frame), original, repair, std::nullopt,
                          options.light.card};
    if (!options.light.card_at.empty()) source.bare_card = calibration.card_corners;
    if (calibration.flat_field)
        source.flat_field = std::make_shared<const FlatField>(*calibration.flat_field);
    source.kept = calibration.kept;
    source.stated = calibration.stated;
    if (options.light.profile.empty()) {
        const FileBytes file = read_file_bytes(options.picture);
        source.file.assign(file.span().begin(), file.span().end());
        source.file_kind =
            file_ending(options.picture).empty() ? "picture" : file_ending(options.picture).substr(1);
    }
    return source;
}

// A bare repair beside a finished original always reads too light: only a plan reckons the finish in.
std::string finish_hint(const ChosenArea& place) {
    const std::vector<FinishingStep> steps = place.store->steps(place.area.uid);
    const bool finished = std::any_of(steps.begin(), steps.end(), [](const FinishingStep& step) {
        return step.kind == StepKind::clear && !step.done.empty();
    });
    if (finished || KitShelf(*place.store).kits().empty()) return "";
    return fmt::format(
        "  No clear coat is recorded here. If the repair is bare and the original finished, go by 'tonemend "
        "plan {}', which reckons the finish in, not by the moves above.\n",
        place.job.number);
}

std::string keep(const ChosenArea& place, const CompareOptions& options, const ReadingToKeep& reading) {
    const std::string light = is_light_name(options.light.light) ? options.light.light : "";
    const KeptReading kept = keep_in_area(*place.store, place.area.uid, options.role, reading, light);
    std::string said = fmt::format("  kept in {}{}\n", kept.place, place.started ? ", a new job" : "");
    said += finish_hint(place);
    if (options.role != ReadingRole::after) return said;
    const auto pair = find_before_after(place.store->readings(place.area.uid));
    if (!pair) return said + "  no reading was taken before; nothing to hold it against\n";
    return said + say_before_after(*pair);
}

}  // namespace

void add_compare_options(CLI::App& command, CompareOptions& options) {
    command.add_option("picture", options.picture, "JPEG, PNG, TIFF, WebP or camera raw")->required();
    command
        .add_option("--original", options.original,
                    "Region of the old finish: x,y,w,h or 'x1,y1 x2,y2 x3,y3 …'")
        ->required();
    command.add_option("--repair", options.repair, "Region of the repair, likewise")->required();
    add_calibration_options(command, options.light);
    add_saved_calibration_option(command, options.light);
    add_further_light_options(command, options.further);
    command.add_option("--tolerance", options.tolerance, "ΔE2000 at which the repair passes, 0.05 to 20")
        ->check(check_tolerance)
        ->capture_default_str();
    command.add_option("--drying", options.drying,
                       "Log of 'tonemend drying': a reading made before the repair had settled is marked so");
    command.add_flag("--json", options.json, "Print one JSON object and nothing else");
    command.add_option("--save-picture", options.save_picture,
                       "Write an annotated copy (PNG); one that is there is replaced");
    command.add_flag("--without-picture", options.without_picture,
                     "The job keeps the annotated copy alone, not the picture itself");
}

ExitStatus run_compare(const CompareOptions& options) {
    const Region original = parse_region(options.original, "--original");
    const Region repair = parse_region(options.repair, "--repair");
    require_destinations(options.picture, options.save_picture);
    if (!options.job.job.empty()) require_area(options.job, options.missing_job);
    const Frame frame = read_frame(options.picture, options.light);
    const Calibration calibration = calibrate(frame, options.light);
    Comparison comparison =
        options.further.pictures.empty()
            ? compare_regions(frame, calibration, original, repair, options.tolerance)
            : compare_under_further_lights(frame, calibration, options.light, options.further, original,
                                           repair, options.tolerance);
    const PictureLight light = light_of(frame, calibration);
    if (!options.drying.empty()) mark_if_settling(comparison, options.picture, options.drying);
    std::string kept, trouble;
    try {
        std::optional<ChosenArea> place;
        if (!options.job.job.empty()) {
            place = choose_area(options.job, options.missing_job);
            hold_against_earlier(*place, light, comparison);
        }
        if (place || !options.save_picture.empty()) {
            const AnnotatedPicture annotated = annotate_picture(frame, calibration, comparison);
            // The job first: a reading that cannot be kept leaves no copy behind.
            if (place) {
                ReadingToKeep reading{std::filesystem::path(options.picture).filename().string(),
                                      utc_now(),
                                      annotated,
                                      calibration,
                                      comparison,
                                      std::nullopt,
                                      light};
                if (!options.without_picture)
                    reading.source = source_of(options, frame, calibration, original, repair);
                kept = keep(*place, options, reading);
            }
            if (!options.save_picture.empty()) save_annotated_picture(annotated, options.save_picture);
        }
    } catch (const InputError& error) {
        trouble = error.what();
    }
    // What was measured is said even when it could not be kept.
    print_out(options.json ? to_text(to_json(calibration, comparison))
                           : summarise(frame, calibration, comparison, detect_swatches()) + kept);
    if (!trouble.empty()) throw InputError(trouble);
    return comparison.unfit() ? ExitStatus::unfit : ExitStatus::measured;
}

}  // namespace tonemend
