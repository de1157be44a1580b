#include "cli/further_lights.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "measure/many_lights.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "practice/light_ensemble.h"

namespace tonemend {
namespace {

constexpr std::size_t most_further = 2;

struct FurtherPicture {
    std::string light, file;
};

FurtherPicture parse_further(const std::string& text) {
    const auto at = text.find('=');
    if (at == std::string::npos || at == 0 || at + 1 == text.size())
        throw InputError(
            fmt::format("--also-under {}: give LIGHT=PICTURE, for example CIE-A=seat-under-lamp.jpg",
                        one_line(text, 200)));
    return {text.substr(0, at), text.substr(at + 1)};
}

// The practice bench's lamp for a light of which its user states the kind or the temperature only.
std::string lamp_name(const std::string& text, const StatedLight& light) {
    if (text.find_first_not_of("0123456789.kK") != std::string::npos) return text;
    return fmt::format("{}:{:.0f}", light.kelvin >= 4500 ? "daylight" : "planckian", light.kelvin);
}

FoundCard find_framed(const Frame& frame) {
    if (const auto found = find_card(frame)) return *found;
    throw InputError(
        fmt::format("{}: no whole card frame found, by which pictures under several lights are laid over "
                    "each other; have "
                    "all four markers in every picture",
                    frame.name));
}

void require_sense(const CalibrationOptions& first, const FurtherLightOptions& further) {
    if (further.pictures.size() > most_further)
        throw InputError("--also-under: at most two further lights; leave the others out");
    if (first.light.empty())
        throw InputError("--also-under: state the first picture's light too, with --light");
    if (!first.card_at.empty())
        throw InputError(
            "--also-under: needs the card in its frame, not --card-at, to lay the pictures over each other");
    if (!further.flat.empty() && further.flat.size() != further.pictures.size())
        throw InputError(
            fmt::format("--also-flat: given {} times for {} further lights; give one for each, or none",
                        further.flat.size(), further.pictures.size()));
}

}  // namespace

void add_further_light_options(CLI::App& command, FurtherLightOptions& options) {
    command
        .add_option(
            "--also-under", options.pictures,
            "LIGHT=PICTURE: the same scene, camera and card untouched, under another lamp (as --light takes "
            "it); once or twice. Needs --light and three coloured patches of known colour on the card")
        ->allow_extra_args(false);
    command
        .add_option("--also-flat", options.flat,
                    "Flat picture (see --flat) under the further lamp, one for each --also-under")
        ->allow_extra_args(false);
}

Comparison compare_under_further_lights(const Frame& frame, const Calibration& calibration,
                                        const CalibrationOptions& first, const FurtherLightOptions& further,
                                        const Region& original, const Region& repair, double tolerance) {
    require_sense(first, further);
    const Card card = read_card(locate_card(first.card));
    const std::string first_light = light_text(first.light, first);
    const StatedLight light = parse_light(first_light);
    std::vector<std::string> lamps{lamp_name(first_light, light)};
    std::vector<Frame> frames;
    frames.reserve(further.pictures.size());
    std::vector<PictureUnderLight> pictures{{&frame, find_framed(frame), calibration, light}};
    for (std::size_t i = 0; i < further.pictures.size(); ++i) {
        const FurtherPicture picture = parse_further(further.pictures[i]);
        CalibrationOptions options = first;
        options.light = light_text(picture.light, first);
        options.calibration.clear();
        options.samples.clear();
        options.flat.clear();
        if (!further.flat.empty()) options.flat = {further.flat[i]};
        const Frame& its = frames.emplace_back(read_frame(picture.file, options));
        const FoundCard found = find_framed(its);
        const StatedLight its_light = parse_light(options.light);
        lamps.push_back(lamp_name(options.light, its_light));
        pictures.push_back(
            {&its, found, calibrate_on_card(its, card, found, read_inputs(options, card)), its_light});
    }
    return compare_under_lights(pictures, original, repair, camera_ensemble(lamps), tolerance);
}

}  // namespace tonemend
