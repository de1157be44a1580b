#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/commands.h"
#include "cli/destinations.h"
#include "cli/output.h"
#include "cli/second_light_options.h"
#include "cli/second_light_pictures.h"
#include "cli/second_light_summary.h"
#include "picture/input_error.h"
#include "picture/write_picture.h"
#include "record/annotated_picture.h"
#include "record/comparison_json.h"
#include "record/second_light_json.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

void require_sense(const SecondLightOptions& options) {
    if (options.limits.caution > options.limits.alarm)
        throw InputError(fmt::format(
            "--caution {:g} is above --alarm {:g}, so nothing would ever be cautioned of; give a smaller one",
            options.limits.caution, options.limits.alarm));
    const std::size_t last = options.of.size() - 1;
    const LightPictureOptions& third = options.of[last];
    const bool of_third = !third.original.empty() || !third.repair.empty() || !third.light.empty() ||
                          !third.card_at.empty() || !third.calibration.empty() || !third.flat.empty();
    if (of_third && options.pictures.size() <= last)
        throw InputError(
            "an option that ends in -3 is about a third picture; give that picture too, or leave it away");
}

// "seat.png" becomes "seat-2.png".
fs::path numbered(const fs::path& path, std::size_t number) {
    fs::path result = path;
    result.replace_filename(fmt::format("{}-{}{}", path.stem().string(), number, path.extension().string()));
    return result;
}

// Before anything is measured, as compare asks.
std::vector<fs::path> copies_of(const SecondLightOptions& options) {
    std::vector<fs::path> copies;
    if (options.save_picture.empty()) return copies;
    for (std::size_t i = 0; i < options.pictures.size(); ++i) {
        copies.push_back(numbered(options.save_picture, i + 1));
        for (const std::string& picture : options.pictures) require_destinations(picture, copies.back());
    }
    return copies;
}

void save_copies(const std::vector<fs::path>& copies, const std::vector<LightPicture>& pictures) {
    std::vector<AnnotatedPicture> annotated;
    for (const LightPicture& picture : pictures)
        annotated.push_back(
            annotate_picture(picture.frame, *picture.pair.calibration, picture.pair.comparison));
    std::vector<FileToWrite> files;
    for (std::size_t i = 0; i < copies.size(); ++i) files.push_back({copies[i], annotated[i]});
    write_whole_files(files);
}

void keep(const JobChoice& choice, const PairUnderLights& pair, bool silent) {
    const ChosenArea place = choose_area(choice, MissingJob::start);
    place.store->add_comparison(
        {.uid = {},
         .area = place.area.uid,
         .kind = ComparisonKind::second_light,
         .first = {},
         .second = {},
         .made = utc_now(),
         .text = to_json(pair).dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace)});
    if (!silent) print_out(fmt::format("  kept in job {} ('{}')\n", place.job.number, place.job.name));
}

ExitStatus hold_second_light(const SecondLightOptions& options) {
    require_sense(options);
    const std::vector<fs::path> copies = copies_of(options);
    if (!options.job.job.empty()) require_area(options.job, MissingJob::start);
    const std::vector<LightPicture> pictures = read_light_pictures(options);
    std::vector<PairUnderOne> lights;
    for (const LightPicture& picture : pictures) lights.push_back(picture.pair);
    const PairUnderLights pair = hold_against_first(std::move(lights), options.limits);
    if (!copies.empty()) save_copies(copies, pictures);
    print_out(options.json ? to_text(to_json(pair)) : summarise_lights(pair));
    if (!options.job.job.empty()) keep(options.job, pair, options.json);
    return pair.unfit() ? ExitStatus::unfit : ExitStatus::measured;
}

}  // namespace

void add_second_light_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<SecondLightOptions>();
    CLI::App* command = app.add_subcommand(
        "second-light",
        "Whether a match holds when the light changes: the same pair in two pictures or three");
    add_second_light_options(*command, *options);
    command->callback([options, &status] { status = hold_second_light(*options); });
}

}  // namespace tonemend
