#include "cli/gloss_options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "calibrate/keep/calibration_file.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

void require_places(const LampPositionOptions& options) {
    const std::size_t pictures = options.pictures.size();
    if (pictures < 2)
        throw InputError(fmt::format(
            "{}: one picture says nothing of gloss; give two or more, the lamp moved between them",
            options.pictures.empty() ? "gloss" : options.pictures.front()));
    if (pictures > most_lamp_positions)
        throw InputError(fmt::format("gloss: {} pictures given; at most {} serve, leave the others out",
                                     pictures, most_lamp_positions));
    if (!options.light.card_at.empty())
        throw InputError(
            "--card-at: the pictures are laid over each other by the card frame; have the card in its frame "
            "and leave --card-at out");
    const std::vector<std::string>& flat = options.light.flat;
    if (!flat.empty() && flat.size() != pictures)
        throw InputError(
            fmt::format("--flat: given {} times for {} pictures; give one for each, in their "
                        "order, or --flat-1, --flat-2 and so on",
                        flat.size(), pictures));
    for (std::size_t i = 0; i < most_lamp_positions; ++i) {
        if (options.flat[i].empty()) continue;
        if (i >= pictures)
            throw InputError(fmt::format(
                "--flat-{}: there is no picture {}; leave it out, or give the picture", i + 1, i + 1));
        if (!flat.empty())
            throw InputError(
                fmt::format("--flat-{}: give either --flat or the numbered ones, not both", i + 1));
    }
}

}  // namespace

void add_lamp_position_options(CLI::App& command, LampPositionOptions& options) {
    command.add_option("pictures", options.pictures,
                       "Two to six pictures of the same work and card, camera untouched and the lamp moved "
                       "between them. Regions are those of the first");
    add_calibration_options(command, options.light);
    add_saved_calibration_option(command, options.light);
    command.get_option("--flat")->description(
        "Picture of an even grey sheet under the lamp of each picture, in their order: as many as pictures");
    for (std::size_t i = 0; i < most_lamp_positions; ++i)
        command
            .add_option(
                fmt::format("--flat-{}", i + 1), options.flat[i],
                fmt::format("All the flat pictures of lamp position {}, as --flat of compare takes them",
                            i + 1))
            ->expected(1)
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
}

ReadLampPositions read_lamp_positions(const LampPositionOptions& options) {
    require_places(options);
    const Card card = read_card(locate_card(options.light.card));
    std::shared_ptr<const KeptCalibration> kept;
    if (!options.light.calibration.empty())
        kept = std::make_shared<const KeptCalibration>(read_calibration(options.light.calibration));
    ReadLampPositions read;
    for (std::size_t i = 0; i < options.pictures.size(); ++i) {
        CalibrationOptions light = options.light;
        light.flat = options.flat[i];
        if (!options.light.flat.empty()) light.flat = {options.light.flat[i]};
        if (i > 0) light.samples.clear();
        read.frames.push_back(std::make_unique<Frame>(read_frame(options.pictures[i], light)));
        const Frame& frame = *read.frames.back();
        const auto found = find_card(frame);
        if (!found)
            throw InputError(
                fmt::format("{}: no whole card frame found, by which the pictures are laid over "
                            "each other; have all four markers in every picture",
                            frame.name));
        CalibrationInputs inputs = read_inputs(light, card);
        inputs.kept = kept;
        read.positions.push_back({&frame, *found, calibrate_on_card(frame, card, *found, inputs)});
    }
    return read;
}

}  // namespace tonemend
