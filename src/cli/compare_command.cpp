#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <charconv>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "calibrate/calibration.h"
#include "calibrate/find_card.h"
#include "cli/check_tolerance.h"
#include "cli/commands.h"
#include "cli/destinations.h"
#include "cli/output.h"
#include "cli/terminal_summary.h"
#include "measure/comparison.h"
#include "picture/input_error.h"
#include "picture/read_picture.h"
#include "picture/text_line.h"
#include "record/annotated_picture.h"
#include "record/comparison_json.h"
#include "record/job_folder.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

struct CompareOptions {
    std::string picture, original, repair;
    std::string card = "grey-card";
    std::string card_at;
    std::string black_level = "auto";
    double tolerance = default_tolerance;
    bool json = false;
    std::string save_picture;
    std::string job;
};

std::optional<double> parse_black_level(const std::string& text) {
    if (text == "auto") return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) {
        throw InputError(
            fmt::format("--black-level {}: give 'auto' or the picture's own value for black, for example 16",
                        one_line(text, 40)));
    }
    return value;
}

Calibration calibrate(const Frame& frame, const CompareOptions& options) {
    const Card card = read_card(locate_card(options.card));
    const std::optional<double> black_level = parse_black_level(options.black_level);
    if (!options.card_at.empty())
        return calibrate_on_card(frame, card, parse_quad(options.card_at, "--card-at"), black_level);
    if (const auto found = find_card(frame)) return calibrate_on_card(frame, card, *found, black_level);
    throw InputError(fmt::format(
        "{}: no whole card frame found: are all four markers in the picture, sharp, at least 30 pixels wide "
        "and not mirrored? Or give the card's corners with --card-at 'x1,y1 x2,y2 x3,y3 x4,y4'",
        frame.name));
}

ExitStatus compare(const CompareOptions& options) {
    const Region original = parse_region(options.original, "--original");
    const Region repair = parse_region(options.repair, "--repair");
    require_destinations(options.picture, options.save_picture, options.job);
    const Frame frame = read_picture(options.picture);
    const Calibration calibration = calibrate(frame, options);
    const Comparison comparison = compare_regions(frame, calibration, original, repair, options.tolerance);
    std::string kept;
    if (!options.save_picture.empty() || !options.job.empty()) {
        const AnnotatedPicture annotated = annotate_picture(frame, calibration, comparison);
        // The job first: a folder that cannot be made leaves no copy behind.
        if (!options.job.empty())
            kept = JobFolder(options.job)
                       .keep({std::filesystem::path(options.picture).filename().string(), utc_now(),
                              annotated, calibration, comparison, std::nullopt})
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
    command->add_option("--card", options->card, "Card description: a name from calibration/ or a file")
        ->capture_default_str();
    command->add_option("--card-at", options->card_at,
                        "The card's corners, 'x1,y1 x2,y2 x3,y3 x4,y4': top-left, top-right, bottom-right, "
                        "bottom-left; without it "
                        "the card frame is looked for");
    command->add_option("--black-level", options->black_level, "The picture's value for black, or auto")
        ->capture_default_str();
    command->add_option("--tolerance", options->tolerance, "ΔE2000 at which the repair passes, 0.05 to 20")
        ->check(check_tolerance)
        ->capture_default_str();
    command->add_flag("--json", options->json, "Print one JSON object and nothing else");
    command->add_option("--save-picture", options->save_picture,
                        "Write an annotated copy (PNG); one that is there is replaced");
    command->add_option("--job", options->job,
                        "Keep the reading and the annotated copy in this folder, numbered");
    command->callback([options, &status] { status = compare(*options); });
}

}  // namespace tonemend
