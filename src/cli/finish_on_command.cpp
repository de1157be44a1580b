#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cli/calibration_options.h"
#include "cli/commands.h"
#include "cli/finish_facts_options.h"
#include "cli/lab_text.h"
#include "cli/output.h"
#include "colour/difference.h"
#include "measure/finish_on.h"
#include "measure/reading.h"
#include "measure/uncertainty.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/comparison_json.h"
#include "record/finish_pairs.h"
#include "record/json_numbers.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

struct FinishOnOptions {
    std::string picture, region, bare;
    std::string pair_lab, pair_picture, pair_region;
    std::string wood, finish;
    FinishFacts facts;
    CalibrationOptions light;
    std::string pairs;  // file; empty: the user's own
    bool list = false, json = false;
};

// A surface's colour, and how well it is known.
struct KnownColour {
    Lab lab;
    std::array<double, 3> u95{};
};

// What an instrument on a small spot may be off by, CIELAB, where only a colour is given.
constexpr double typed_u95 = 0.3;

KnownColour typed(const std::string& text, const std::string& role) {
    return {parse_lab(text, role), {typed_u95, typed_u95, typed_u95}};
}

KnownColour read_colour(const std::string& picture, const std::string& region_text, const std::string& role,
                        const CalibrationOptions& light) {
    const Region region = parse_region(region_text, role);
    const Frame frame = read_frame(picture, light);
    const Calibration calibration = calibrate(frame, light);
    for (const Warning& warning : calibration.warnings)
        if (warning.unfit)
            throw InputError(fmt::format("{}: no colour can be read in it: {} ({})", frame.name, warning.text,
                                         warning.code));
    const Reading reading = read_region(frame, calibration, region, role);
    return {reading.lab, propagate(calibration, reading, reading).original_u95};
}

KnownColour bare_colour(const FinishOnOptions& options) {
    if (!options.bare.empty()) {
        if (!options.picture.empty())
            throw InputError(
                "--bare: the bare wood's colour is given and a picture of it too; give one of them");
        return typed(options.bare, "--bare");
    }
    if (options.picture.empty())
        throw InputError(
            "--bare: give the bare wood's colour, for example --bare 62.3,9.1,24.8, or a picture of "
            "it and --region");
    if (options.region.empty())
        throw InputError("--region: say where the bare wood is in the picture, for example 250,691,389,389");
    return read_colour(options.picture, options.region, "--region", options.light);
}

// The same place with the finish on, when there is a pair to keep.
std::optional<KnownColour> pair_colour(const FinishOnOptions& options) {
    if (!options.pair_lab.empty()) {
        if (!options.pair_picture.empty())
            throw InputError("--add-pair: a colour is given and --add-pair-from too; give one of them");
        return typed(options.pair_lab, "--add-pair");
    }
    if (options.pair_picture.empty()) return std::nullopt;
    const std::string& region = options.pair_region.empty() ? options.region : options.pair_region;
    if (region.empty())
        throw InputError(
            "--add-pair-region: say where the finished wood is in that picture, for example "
            "250,691,389,389");
    return read_colour(options.pair_picture, region, "--add-pair-region", options.light);
}

std::string padded_lab(const Lab& lab) {
    return fmt::format("L* {:5.1f}  a* {:5.1f}  b* {:5.1f}", lab.L, lab.a, lab.b);
}

const char* look_name(FinishLook look) {
    return look == FinishLook::wet ? "wet" : "finished";
}

void list_pairs(const std::vector<KeptFinishPair>& pairs, const std::filesystem::path& path) {
    std::string text = fmt::format("\n  {} pairs in {}\n", pairs.size(), one_line(path.string(), 400));
    for (const KeptFinishPair& kept : pairs)
        text += fmt::format("  {}  {}, {}: {}  ->  {}  {}\n", kept.read, kept.wood, kept.finish,
                            padded_lab(kept.pair.bare), look_name(kept.look), padded_lab(kept.pair.finished));
    print_out(text + "\n");
}

std::string forecast_text(const FinishOnOptions& options, const KnownColour& bare,
                          const FinishForecast& forecast, bool kept) {
    const bool wet = options.facts.look == FinishLook::wet;
    std::string text = fmt::format(
        "\n  {}, {}\n  bare      {}\n  {:8}  {}   ± {:.1f}, {:.1f}, {:.1f}; ΔE2000 ± {:.1f}\n  {:.1f} from "
        "bare; {}\n",
        options.wood, options.finish, padded_lab(bare.lab), wet ? "wet" : "finished",
        padded_lab(forecast.lab), forecast.u95[0], forecast.u95[1], forecast.u95[2], forecast.de2000_u95,
        ciede2000(bare.lab, forecast.lab).value,
        forecast.pairs == 0 ? std::string("from physics alone: pairs of your own make it better")
                            : fmt::format("from physics and {} pair{} of your own", forecast.pairs,
                                          forecast.pairs == 1 ? "" : "s"));
    if (kept) text += "  the pair is kept, and counted in\n";
    if (wet)
        text +=
            "  Thinner: ventilate, no flame or spark, gloves; lay wet rags out flat outdoors or under water "
            "in a "
            "closed metal can. Label and safety sheet first.\n";
    return text + "\n";
}

std::string forecast_json(const FinishOnOptions& options, const KnownColour& bare,
                          const FinishForecast& forecast, bool kept) {
    return to_text({{"schema", "tonemend.finish-on/1"},
                    {"wood", options.wood},
                    {"finish", options.finish},
                    {"look", look_name(options.facts.look)},
                    {"bare_lab", lab_json(bare.lab)},
                    {"bare_lab_u95", numbers_json(bare.u95)},
                    {"lab", lab_json(forecast.lab)},
                    {"lab_u95", numbers_json(forecast.u95)},
                    {"de2000_u95", rounded(forecast.de2000_u95)},
                    {"pairs", forecast.pairs},
                    {"pair_kept", kept}});
}

ExitStatus finish_on(const FinishOnOptions& options) {
    const std::filesystem::path path =
        options.pairs.empty() ? finish_pairs_path() : std::filesystem::path(options.pairs);
    if (options.list) {
        list_pairs(read_finish_pairs(path), path);
        return ExitStatus::measured;
    }
    if (options.wood.empty() || options.finish.empty())
        throw InputError(
            "--wood and --finish: name both, in words of your own, for example --wood oak --finish "
            "'shop varnish'");
    read_finish_pairs(path);  // refuses before anything is measured
    const KnownColour bare = bare_colour(options);
    const std::optional<KnownColour> finished = pair_colour(options);
    if (finished)
        add_finish_pair(path, {options.wood,
                               options.finish,
                               options.facts.look,
                               {bare.lab, finished->lab, bare.u95, finished->u95},
                               utc_now()});
    const auto pairs =
        choose_pairs(read_finish_pairs(path), options.wood, options.finish, options.facts.look);
    const FinishForecast forecast = FinishModel(options.facts, pairs).foretell(bare.lab, bare.u95);
    print_out(options.json ? forecast_json(options, bare, forecast, finished.has_value())
                           : forecast_text(options, bare, forecast, finished.has_value()));
    return ExitStatus::measured;
}

}  // namespace

void add_finish_on_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<FinishOnOptions>();
    CLI::App* command = app.add_subcommand(
        "finish-on", "Foretell what bare wood will look like with its clear finish on, and learn from pairs");
    command->add_option("picture", options->picture, "Picture of the bare, dry wood, with the card");
    command->add_option("--region", options->region, "Where the bare wood is in it");
    command->add_option("--bare", options->bare, "The bare wood's colour L*,a*,b*, in place of a picture");
    command->add_option("--wood", options->wood, "The wood, as you name it");
    command->add_option("--finish", options->finish, "The finish, as you name it");
    add_finish_facts(*command, options->facts);
    command->add_flag_callback(
        "--wet", [options] { options->facts.look = FinishLook::wet; },
        "In place of finished: wet with mineral spirits, the trade's preview. Ventilate, no flame; label and "
        "safety sheet first");
    command->add_option("--add-pair", options->pair_lab,
                        "Keep a pair: the colour L*,a*,b* that this bare wood had with the finish on");
    command->add_option("--add-pair-from", options->pair_picture,
                        "The same from a picture of the same place with the finish on");
    command->add_option("--add-pair-region", options->pair_region, "Where in that picture; else --region");
    command->add_option("--pairs", options->pairs,
                        "File of the pairs, in place of your own in the data folder");
    command->add_flag("--list", options->list, "List the pairs that are kept");
    add_calibration_options(*command, options->light);
    add_saved_calibration_option(*command, options->light);
    command->add_flag("--json", options->json, "Print one JSON object and nothing else");
    command->callback([options, &status] { status = finish_on(*options); });
}

}  // namespace tonemend
