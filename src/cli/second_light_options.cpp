#include "cli/second_light_options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/check_tolerance.h"

namespace tonemend {
namespace {

// The first picture's options go without their number too.
std::string option_name(const char* what, std::size_t number) {
    return number == 1 ? fmt::format("--{0},--{0}-1", what) : fmt::format("--{}-{}", what, number);
}

void add_options_of(CLI::App& command, LightPictureOptions& options, std::size_t number) {
    const bool first = number == 1;
    const auto add = [&](const char* what, std::string& value, const std::string& help) {
        return command.add_option(option_name(what, number), value, help);
    };
    const std::string there = fmt::format("The same in picture {}; without it ", number);
    add("original", options.original,
        first ? "Region of the old finish in the first picture: x,y,w,h or 'x1,y1 x2,y2 x3,y3 …'"
              : there + "it is carried over by the card frame and the grain")
        ->required(first);
    add("repair", options.repair,
        first ? "Region of the repair, likewise" : there + "it is carried over likewise")
        ->required(first);
    add("light", options.light,
        first ? "Light of the first picture: its colour temperature, as 6500, or what it is: CIE-D65, "
                "daylight:5500, led:3000, or the name of a light that 'tonemend lights' keeps"
              : fmt::format("Light of picture {}, likewise", number));
    add("card-at", options.card_at,
        first ? "The card's corners in the first picture, when it lies in no frame: top-left, top-right, "
                "bottom-right, bottom-left"
              : fmt::format("The card's corners in picture {}", number));
    add("calibration", options.calibration,
        fmt::format("Saved calibration of this camera under the light of picture {}", number));
    command
        .add_option(
            option_name("flat", number), options.flat,
            fmt::format("Picture that shows how the light of picture {} falls (see compare --flat)", number))
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
}

}  // namespace

void add_second_light_options(CLI::App& command, SecondLightOptions& options) {
    command
        .add_option("pictures", options.pictures,
                    "The same original and repair, with the card, under each light: two pictures or three")
        ->required()
        ->expected(2, static_cast<int>(most_lights));
    for (std::size_t i = 0; i < most_lights; ++i) add_options_of(command, options.of[i], i + 1);
    // Whoever changes the light doubts the colourants: the interval allows for any.
    options.shared.colourants = RepairColourants::other;
    add_shared_options(command, options.shared);
    const auto limit = [&](const char* name, double& value, const char* help) {
        command.add_option(name, value, help)->check(check_tolerance)->capture_default_str();
    };
    limit("--caution", options.limits.caution, "ΔE2000 of parting from which to be careful, 0.05 to 20");
    limit("--alarm", options.limits.alarm, "ΔE2000 of parting from which the match fails, 0.05 to 20");
    limit("--tolerance", options.tolerance, "ΔE2000 at which the repair passes under one light, 0.05 to 20");
    command.add_flag("--json", options.json, "Print one JSON object and nothing else");
    command.add_option("--save-picture", options.save_picture,
                       "Write an annotated copy of each picture (PNG): OUT.png gives OUT-1.png, OUT-2.png; "
                       "those that are there are replaced");
    command.add_option("--job", options.job.job, "Keep the result in this job, by number or name");
    add_area_choice(command, options.job);
    add_store_option(command, options.job);
}

}  // namespace tonemend
