#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <memory>

#include "calibrate/keep/named_lights.h"
#include "calibrate/model/stated_light.h"
#include "calibrate/preflight/light_temperature.h"
#include "cli/calibration_options.h"
#include "cli/commands.h"
#include "cli/output.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

constexpr std::size_t longest_words = 200;

struct LightsOptions {
    NamedLight light;     ///< to add, or whose name alone is asked for
    std::string picture;  ///< to check it by
    CalibrationOptions calibration;
    bool force = false;

    std::filesystem::path file() const {
        return calibration.lights.empty() ? standing_lights() : std::filesystem::path(calibration.lights);
    }
};

NamedLight& find_or_refuse(std::vector<NamedLight>& lights, const std::string& name,
                           const std::filesystem::path& file) {
    const NamedLight* found = find_light(lights, name);
    if (found == nullptr)
        throw InputError(fmt::format("{}: holds no light named '{}'; 'tonemend lights' lists them",
                                     one_line(file.string(), 400), one_line(name, 60)));
    return lights[static_cast<std::size_t>(found - lights.data())];
}

std::string line_of(const NamedLight& light) {
    std::string text =
        fmt::format("  {:<24} {:<16} {:5.0f} K", light.name, light.light, parse_light(light.light).kelvin);
    if (light.checked)
        text += fmt::format("   seen {:.0f} K on {}", light.checked->kelvin, light.checked->when);
    text += "\n";
    for (const std::string& words : {light.lamp, light.place})
        if (!words.empty()) text += fmt::format("  {:<24} {}\n", "", words);
    return text;
}

void list_lights(const LightsOptions& options) {
    std::string text = "\n";
    for (const NamedLight& light : read_lights(options.file())) text += line_of(light);
    if (text == "\n")
        text =
            "  no lights are kept; for example: tonemend lights add 'shop window' daylight:6500 --place "
            "'north side'\n";
    print_out(text);
}

void add_light(const LightsOptions& options) {
    NamedLight light = options.light;
    require_light_name(light.name);
    parse_light(light.light);
    light.lamp = one_line(light.lamp, longest_words), light.place = one_line(light.place, longest_words);
    change_lights(options.file(), [&](std::vector<NamedLight>& lights) {
        if (find_light(lights, light.name) == nullptr) return lights.push_back(light);
        if (!options.force)
            throw InputError(
                fmt::format("'{}' is kept already; choose another name, or add --force to put "
                            "this one in its place",
                            light.name));
        find_or_refuse(lights, light.name, options.file()) = light;
    });
    print_out(line_of(light));
}

void remove_light(const LightsOptions& options) {
    change_lights(options.file(), [&](std::vector<NamedLight>& lights) {
        const NamedLight& gone = find_or_refuse(lights, options.light.name, options.file());
        lights.erase(lights.begin() + (&gone - lights.data()));
    });
}

// The picture's own white is asked, so nothing is stated of its light.
void check_light(const LightsOptions& options) {
    std::vector<NamedLight> before = read_lights(options.file());
    find_or_refuse(before, options.light.name, options.file());
    const Frame frame = read_frame(options.picture, options.calibration);
    const auto kelvin = temperature_of_white(frame, calibrate(frame, options.calibration));
    if (!kelvin)
        throw InputError(fmt::format(
            "{}: does not show its light's colour temperature, since it was balanced to white; give camera "
            "raw (DNG or the camera's own)",
            frame.name));
    NamedLight checked;
    change_lights(options.file(), [&](std::vector<NamedLight>& lights) {
        NamedLight& light = find_or_refuse(lights, options.light.name, options.file());
        light.checked = LightCheck{utc_now(), std::clamp(*kelvin, 1000.0, 25000.0)};
        checked = light;
    });
    print_out(line_of(checked));
}

template <typename Act>
CLI::App* add_part(CLI::App& lights, const std::shared_ptr<LightsOptions>& options, ExitStatus& status,
                   const char* name, const char* help, Act act) {
    CLI::App* part = lights.add_subcommand(name, help);
    part->add_option("name", options->light.name, "The light's name, as 'shop window'")->required();
    part->callback([options, &status, act] {
        act(*options);
        status = ExitStatus::measured;
    });
    return part;
}

}  // namespace

void add_lights_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<LightsOptions>();
    CLI::App* command =
        app.add_subcommand("lights", "List the lights that you work and judge under; add, check, remove one");
    command->require_subcommand(0, 1);
    const auto add_file = [&](CLI::App& part) {
        part.add_option("--lights", options->calibration.lights,
                        "File that keeps them, in place of your own");
    };
    add_file(*command);
    CLI::App* add = add_part(*command, options, status, "add", "Keep a light by a name", add_light);
    add->add_option("light", options->light.light,
                    "Its colour temperature, as 2700, or what it is: CIE-A, daylight:5500, led:3000 …")
        ->required();
    add->add_option("--lamp", options->light.lamp, "What lamp it is, in your words");
    add->add_option("--place", options->light.place, "Where it is, likewise");
    add->add_flag("--force", options->force, "Put it in the place of one of that name");
    add_file(*add);
    CLI::App* check =
        add_part(*command, options, status, "check",
                 "Note the colour temperature that a raw picture of the card shows", check_light);
    check->add_option("picture", options->picture, "Camera raw, with the card under this light")->required();
    check
        ->add_option("--card", options->calibration.card,
                     "Card description: a name from calibration/ or a file")
        ->capture_default_str();
    check->add_option("--card-at", options->calibration.card_at, "The card's corners, as in compare");
    add_file(*check);
    add_file(*add_part(*command, options, status, "remove", "Forget a light", remove_light));
    command->callback([command, options, &status] {
        if (!command->get_subcommands().empty()) return;
        list_lights(*options);
        status = ExitStatus::measured;
    });
}

}  // namespace tonemend
