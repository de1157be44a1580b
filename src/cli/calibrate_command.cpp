#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <nlohmann/json.hpp>

#include "calibrate/keep/calibration_file.h"
#include "calibrate/keep/input_profile.h"
#include "calibrate/keep/patch_table.h"
#include "cli/calibration_options.h"
#include "cli/calibration_summary.h"
#include "cli/check_options.h"
#include "cli/commands.h"
#include "cli/new_file.h"
#include "cli/output.h"
#include "picture/icc_decoding.h"
#include "picture/input_error.h"
#include "picture/standard_encodings.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

struct CalibrateOptions {
    std::string picture, patches;
    CalibrationOptions light;
    std::string save, icc, patches_out;
    CheckOptions check;
    bool force = false, json = false;
};

// The frame that was calibrated on, and the calibration.
struct Calibrated {
    Frame frame;
    Calibration calibration;
    CalibrationInputs inputs;
};

void require_sources(const CalibrateOptions& options) {
    if (options.picture.empty() == options.patches.empty())
        throw InputError(
            "give either a picture of the card or --patches FILE; for example: tonemend calibrate card.jpg "
            "--card six-step-card --save shop.json");
    if (!options.light.samples.empty())
        throw InputError("--sample: corrects colours of the picture that it lies in; give it to compare");
    if (options.patches.empty()) return;
    if (!options.light.flat.empty())
        throw InputError("--flat: a table of readings has no place in a picture; leave --flat away");
    if (!options.icc.empty())
        throw InputError(
            "--icc: a profile says what a picture's codes mean, and a table of readings has none; give the "
            "picture");
    if (!options.light.card_at.empty())
        throw InputError("--card-at: a table of readings has no picture; leave --card-at away");
}

void require_outputs(const CalibrateOptions& options) {
    struct Output {
        const char* option;
        std::string path;
        std::vector<std::string> endings;
    };
    const std::vector<Output> outputs{{"--save", options.save, {".json"}},
                                      {"--icc", options.icc, {".icc", ".icm"}},
                                      {"--patches-out", options.patches_out, {".txt", ".cgats"}}};
    for (const Output& output : outputs) {
        if (output.path.empty()) continue;
        const std::string ending = std::filesystem::path(output.path).extension().string();
        if (std::find(output.endings.begin(), output.endings.end(), ending) == output.endings.end())
            throw InputError(fmt::format("{} {}: give a name that ends in {}", output.option,
                                         one_line(output.path, 400), output.endings.front()));
        for (const std::string& source : {options.picture, options.patches}) {
            std::error_code failure;
            if (!source.empty() && std::filesystem::equivalent(source, output.path, failure))
                throw InputError(fmt::format("{} {}: would replace what is read; give it another name",
                                             output.option, one_line(output.path, 400)));
        }
        require_new(output.path, options.force ? Replace::yes : Replace::no);
    }
}

Calibrated calibrate_picture(const CalibrateOptions& options) {
    Calibrated result{read_frame(options.picture, options.light), {}, {}};
    result.calibration = calibrate(result.frame, options.light);
    CalibrationOptions without_pictures = options.light;
    without_pictures.flat.clear();  // what they showed is in the calibration
    result.inputs = read_inputs(without_pictures, {});
    return result;
}

Calibrated calibrate_table(const CalibrateOptions& options) {
    const Card card = read_card(locate_card(options.light.card));
    const ColourEncoding encoding = options.light.profile.empty() ? srgb_encoding(Provenance::assumed)
                                                                  : read_icc_profile(options.light.profile);
    TabledReadings readings = tabled_readings(read_cgats(options.patches), card, encoding);
    Calibrated result{std::move(readings.frame), {}, {}};
    result.inputs = read_inputs(options.light, card);
    result.calibration =
        calibrate_on_readings(result.frame, card.name, std::move(readings.patches), result.inputs);
    return result;
}

KeptCalibration keep(const Calibrated& calibrated) {
    KeptCalibration kept{"tonemend " TONEMEND_VERSION, utc_now(), {}, calibrated.inputs,
                         calibrated.calibration,       {}};
    const Frame& frame = calibrated.frame;
    kept.picture.name = std::filesystem::path(frame.name).filename().string();
    kept.picture.width = frame.width, kept.picture.height = frame.height;
    kept.picture.type = frame.type;
    kept.picture.encoding = frame.encoding;
    kept.picture.facts = frame.facts;
    return kept;
}

std::string profile_name(const Calibrated& calibrated) {
    const std::string& camera = calibrated.frame.facts.camera;
    return fmt::format("{} by {}", camera.empty() ? "Camera" : camera, calibrated.calibration.card_name);
}

// Writes what was asked for; returns the lines that say so.
std::string write_outputs(const CalibrateOptions& options, const Calibrated& calibrated,
                          const std::string& text) {
    std::vector<FileToWrite> files;
    std::vector<std::uint8_t> profile;
    std::string table;
    if (!options.icc.empty()) {
        profile = input_profile(calibrated.frame, calibrated.calibration, profile_name(calibrated));
        files.push_back({options.icc, std::as_bytes(std::span(profile))});
    }
    if (!options.patches_out.empty()) {
        table = cgats_text(patch_table(calibrated.frame, calibrated.calibration));
        files.push_back({options.patches_out, std::as_bytes(std::span(table))});
    }
    if (!options.save.empty()) files.push_back({options.save, std::as_bytes(std::span(text))});
    write_whole_files(files);
    std::string lines;
    for (const FileToWrite& file : files)
        lines += fmt::format("  saved {}\n", one_line(file.path.string(), 400));
    return lines;
}

bool asks_for_check(const CheckOptions& check) {
    return !check.region.empty() || !check.lab.empty() || check.warn_at || check.expire_at || check.restart;
}

// The same as the command check.
ExitStatus check_instead(const CalibrateOptions& options) {
    if (!options.patches.empty() || !options.save.empty() || !options.icc.empty() ||
        !options.patches_out.empty())
        throw InputError(
            "--check: checks a saved calibration and saves no other; leave the other files away");
    CheckOptions check = options.check;
    check.picture = options.picture;
    check.light = options.light;
    check.json = options.json;
    return check_calibration(check);
}

ExitStatus calibrate_and_save(const CalibrateOptions& options) {
    if (!options.check.calibration.empty()) return check_instead(options);
    if (asks_for_check(options.check))
        throw InputError(
            "--region, --lab, --warn-at, --expire-at and --restart belong to --check FILE.json; give it too");
    require_sources(options);
    require_outputs(options);
    const Calibrated calibrated =
        options.patches.empty() ? calibrate_picture(options) : calibrate_table(options);
    const auto& warnings = calibrated.calibration.warnings;
    const bool unfit =
        std::any_of(warnings.begin(), warnings.end(), [](const Warning& w) { return w.unfit; });
    const std::string text = calibration_text(keep(calibrated));
    const std::string saved =
        unfit ? "  UNFIT, so nothing was saved\n" : write_outputs(options, calibrated, text);
    print_out(options.json ? text : summarise_calibration(calibrated.frame, calibrated.calibration) + saved);
    return unfit ? ExitStatus::unfit : ExitStatus::measured;
}

}  // namespace

void add_calibrate_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<CalibrateOptions>();
    CLI::App* command = app.add_subcommand(
        "calibrate", "Learn from a picture of the card how a camera sees colour under a lamp, and save it");
    command->add_option("picture", options->picture,
                        "JPEG, PNG, TIFF, WebP or camera raw, with the card in it");
    command->add_option("--patches", options->patches,
                        "Table of patch readings (CGATS) to calibrate on in place of a picture");
    add_calibration_options(*command, options->light);
    command->add_option("--save", options->save,
                        "File for the calibration (.json), for compare --calibration and for check");
    command->add_option("--icc", options->icc,
                        "File for an ICC input profile (.icc) that says the same to other programs");
    command->add_option("--patches-out", options->patches_out, "File for the patch readings (CGATS, .txt)");
    command->add_option(
        "--check", options->check.calibration,
        "Saved calibration (.json) to check with the picture instead, as the command check does");
    add_check_options(*command, options->check);
    command->add_flag("--json", options->json, "Print what --save writes and nothing else");
    command->add_flag("--force", options->force, "Replace files that exist");
    command->callback([options, &status] { status = calibrate_and_save(*options); });
}

}  // namespace tonemend
