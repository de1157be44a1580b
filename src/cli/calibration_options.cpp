#include "cli/calibration_options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <filesystem>
#include <map>
#include <optional>

#include "calibrate/card/find_card.h"
#include "calibrate/keep/calibration_file.h"
#include "calibrate/keep/named_lights.h"
#include "picture/icc_decoding.h"
#include "picture/input_error.h"
#include "picture/read_picture.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

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

}  // namespace

void add_shared_options(CLI::App& command, CalibrationOptions& options) {
    command.add_option("--card", options.card, "Card description: a name from calibration/ or a file")
        ->capture_default_str();
    command.add_option("--black-level", options.black_level, "The picture's value for black, or auto")
        ->capture_default_str();
    const std::map<std::string, RepairColourants> kinds{{"same", RepairColourants::same},
                                                        {"earth", RepairColourants::earth},
                                                        {"other", RepairColourants::other}};
    command
        .add_option("--colourants", options.colourants,
                    "What the repair was coloured with: 'same' as the original, other 'earth' and wood "
                    "colours, or 'other' hues; decides how wide the interval must be")
        ->transform(CLI::CheckedTransformer(kinds))
        ->default_str(std::find_if(kinds.begin(), kinds.end(), [&](const auto& kind) {
                          return kind.second == options.colourants;
                      })->first);
    command.add_option("--profile", options.profile,
                       "ICC profile of the camera (.icc), in place of what the picture says of itself");
    command.add_option("--lights", options.lights,
                       "File of the lights that 'tonemend lights' keeps, in place of your own");
}

void add_calibration_options(CLI::App& command, CalibrationOptions& options) {
    add_shared_options(command, options);
    command.add_option("--card-at", options.card_at,
                       "The card's corners, 'x1,y1 x2,y2 x3,y3 x4,y4': top-left, top-right, bottom-right, "
                       "bottom-left; without it "
                       "the card frame is looked for");
    command
        .add_option(
            "--flat", options.flat,
            "Picture that shows how the light falls, to even it out: one of an even grey sheet that fills "
            "it, or several (--flat A --flat B) of the framed card where the original is and where the "
            "repair is; they are told apart by whether the card frame is found. Same lamp, camera and "
            "place as in the picture")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    command.add_option("--light", options.light,
                       "The lamp's colour temperature, as 2700, or what it is: CIE-A, CIE-D65, "
                       "planckian:2856, daylight:5500, led:3000, "
                       "or the name of a light that 'tonemend lights' keeps");
    command
        .add_option(
            "--sample", options.samples,
            "A region whose colour an instrument read: REGION=L,a,b, with original: or repair: in front "
            "if it is a board of that one's materials; may be repeated")
        ->allow_extra_args(false);
}

void add_saved_calibration_option(CLI::App& command, CalibrationOptions& options) {
    command.add_option(
        "--calibration", options.calibration,
        "Calibration that 'tonemend calibrate --save' wrote: how this camera sees colour under "
        "this lamp. The card in the picture still gives white and tones");
}

std::string light_text(const std::string& light, const CalibrationOptions& options) {
    return resolve_light(light,
                         options.lights.empty() ? standing_lights() : std::filesystem::path(options.lights));
}

Frame read_frame(const std::string& picture, const CalibrationOptions& options) {
    if (options.profile.empty()) return read_picture(picture);
    ColourEncoding encoding = read_icc_profile(options.profile);
    Frame frame = read_picture(picture);
    frame.encoding = std::move(encoding);
    return frame;
}

CalibrationInputs read_inputs(const CalibrationOptions& options, const Card& card) {
    CalibrationInputs inputs;
    inputs.black_level = parse_black_level(options.black_level);
    if (!options.flat.empty())
        inputs.flat_samples = std::make_shared<const FlatSamples>(read_flat_pictures(options.flat, card));
    if (!options.light.empty()) inputs.light = parse_light(light_text(options.light, options));
    inputs.colourants = options.colourants;
    for (const std::string& sample : options.samples) inputs.samples.push_back(parse_sample(sample));
    return inputs;
}

Calibration calibrate(const Frame& frame, const CalibrationOptions& options) {
    if (options.calibration.empty()) return calibrate_with(frame, options, nullptr);
    return calibrate_with(frame, options,
                          std::make_shared<const KeptCalibration>(read_calibration(options.calibration)));
}

Calibration calibrate_with(const Frame& frame, const CalibrationOptions& options,
                           std::shared_ptr<const KeptCalibration> kept) {
    const Card card = read_card(locate_card(options.card));
    CalibrationInputs inputs = read_inputs(options, card);
    inputs.kept = std::move(kept);
    if (!options.card_at.empty())
        return calibrate_on_card(frame, card, parse_quad(options.card_at, "--card-at"), inputs);
    if (const auto found = find_card(frame)) return calibrate_on_card(frame, card, *found, inputs);
    throw InputError(fmt::format(
        "{}: no whole card frame found: are all four markers in the picture, sharp, at least 30 pixels wide "
        "and not mirrored? Or give the card's corners with --card-at 'x1,y1 x2,y2 x3,y3 x4,y4'",
        frame.name));
}

}  // namespace tonemend
