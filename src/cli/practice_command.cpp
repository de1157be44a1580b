#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "cli/commands.h"
#include "cli/new_file.h"
#include "cli/output.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"
#include "practice/options.h"
#include "practice/scene.h"
#include "practice/write_practice.h"

namespace tonemend {
namespace {

template <typename Value>
void add_choice(CLI::App& command, const std::string& flag, Value& value,
                const std::map<std::string, Value>& names, const std::string& help) {
    std::vector<std::string> words;
    for (const auto& [word, meaning] : names) words.push_back(word);
    command
        .add_option_function<std::string>(
            flag, [&value, names](const std::string& word) { value = names.at(word); }, help)
        ->check(CLI::IsMember(words));
}

// Once one side is told, both are.
PracticeSide& tell_side(PracticeOptions& options, std::optional<PracticeSide>& side) {
    for (std::optional<PracticeSide>* one : {&options.original, &options.repair})
        if (!*one) one->emplace();
    return *side;
}

std::vector<PracticeCoat> parse_coats(const std::vector<std::string>& texts) {
    std::vector<PracticeCoat> coats;
    for (const std::string& text : texts) {
        if (text == "none") continue;
        const std::size_t sign = text.rfind('=');
        char* end = nullptr;
        const double share = sign == std::string::npos ? 1 : std::strtod(text.c_str() + sign + 1, &end);
        if (end != nullptr && *end != '\0')
            throw InputError(fmt::format("'{}': give a coat as 'Honey Lane dye=0.33'", one_line(text, 60)));
        coats.push_back({text.substr(0, sign), share});
    }
    return coats;
}

void add_wood_options(CLI::App& command, PracticeOptions& options) {
    command.add_option("--wood", options.wood, "Kind of wood; drawn from the seed unless given");
    command.add_option("--grain", options.grain_strength, "Contrast of the grain, 0 to 2")
        ->capture_default_str();
    command.add_option("--grain-size", options.grain_size, "Coarseness of the grain, 0.25 to 10")
        ->capture_default_str();
    command.add_option("--streaks", options.streaks, "Long streaks, 0 to 0.9")->capture_default_str();
    add_choice<PairKind>(
        command, "--pair", options.pair,
        {{"same", PairKind::same_colourant}, {"earth", PairKind::earth}, {"other", PairKind::other}},
        "Colourants of the repair beside the original's");
    for (const char* side : {"original", "repair"}) {
        auto& told = std::string_view(side) == "original" ? options.original : options.repair;
        command.add_option_function<std::vector<std::string>>(
            fmt::format("--{}-coats", side),
            [&options, &told](const std::vector<std::string>& coats) {
                tell_side(options, told).coats = parse_coats(coats);
            },
            fmt::format("What the {} was coloured with, in order, as 'Honey Lane dye=0.33' (its share in the "
                        "mixture); "
                        "none: bare",
                        side));
        command.add_flag_callback(
            fmt::format("--{}-finished", side),
            [&options, &told] { tell_side(options, told).finish = Finish::clear_coat; },
            "A clear coat is on it; with coats that are told it is bare without this");
    }
    command.add_option("--difference", options.difference, "ΔE2000 between the two, long-run means");
    command.add_option("--region-size", options.region_size, "Side of both regions in pixels");
    command
        .add_option("--gloss", options.repair_gloss_percent,
                    "Percent of the lamp's light that the repair mirrors; with --lamp-from, when the lamp "
                    "stands at 0 degrees")
        ->capture_default_str();
    command.add_option("--original-gloss", options.original_gloss_percent, "The same of the original")
        ->capture_default_str();
    command.add_option(
        "--shimmer", options.repair_shimmer_percent,
        "Percent that the repair's figure shimmers with the lamp's direction; needs --lamp-from");
    command.add_option("--original-shimmer", options.original_shimmer_percent, "The same of the original");
}

void add_light_options(CLI::App& command, PracticeOptions& options) {
    command.add_option("--lamp", options.lamp, "CIE-D65 and the like, planckian:K, daylight:K or led:K")
        ->capture_default_str();
    command.add_option(
        "--pair-lamp", options.pair_lamp,
        "The lamp under which the difference is drawn: pictures of one seed under several lamps "
        "then show the same boards; else --lamp");
    command.add_option(
        "--lamp-from", options.lamp_from,
        "Where the lamp stands, in degrees: gloss mirrors it at 0 and hardly beyond 90, so that "
        "pictures of one seed with two directions are what 'tonemend gloss' takes");
    command.add_option("--second-lamp", options.second_lamp, "A second lamp mixed in");
    command.add_option("--second-share", options.second_lamp_share, "Its share of the light, 0 to 1")
        ->capture_default_str();
    command.add_option("--fall-off", options.fall_off_percent, "Percent of light lost across the picture")
        ->capture_default_str();
}

void add_camera_options(CLI::App& command, PracticeOptions& options) {
    command.add_option("--camera", options.camera, "Number of the camera model");
    command.add_option("--exposure", options.exposure, "Linear value of pure white, 0.05 to 2");
    command.add_option("--black-level", options.black_level, "Share of white added to everything, 0 to 0.2");
    add_choice<CameraTone>(command, "--tone", options.tone,
                           {{"srgb", CameraTone::srgb}, {"unknown", CameraTone::mild_s_curve}},
                           "Tone curve; unknown bends it a little");
    command.add_option("--blur", options.blur, "Lens blur in pixels");
    command.add_option("--noise", options.noise, "Times the camera's own noise")->capture_default_str();
    command.add_option("--bits", options.bits, "8 or 16 a sample")->capture_default_str();
    command.add_option("--quality", options.jpeg_quality, "JPEG quality")->capture_default_str();
}

void add_card_options(CLI::App& command, PracticeOptions& options) {
    command.add_option("--card", options.card, "Card description: a name or a file")->capture_default_str();
    add_choice<CardMount>(
        command, "--card-mount", options.card_mount,
        {{"framed", CardMount::framed}, {"bare", CardMount::bare}, {"absent", CardMount::absent}},
        "How the card lies there");
    command.add_option("--frame", options.frame, "Card frame: small, medium or large")->capture_default_str();
    command.add_option("--rotation", options.rotation, "Degrees that the card is turned");
    command.add_option("--tilt", options.tilt, "Degrees that it is tilted");
    command.add_option("--card-x", options.card_x,
                       "Where the card's middle is, a share of the picture's width; with --card-y");
    command.add_option("--card-y", options.card_y, "The same of its height");
    command.add_flag_callback(
        "--flat-sheet", [&options] { options.subject = PracticeSubject::grey_sheet; },
        "In place of wood and card an even grey sheet, under the same lamp");
}

void add_light_faults(CLI::App& command, PracticeFaults& faults) {
    command.add_option("--shadow", faults.shadow_percent, "Percent of light lost in a shadow on the card")
        ->capture_default_str();
    command.add_option("--shadow-share", faults.shadow_share, "Share of the card in it")
        ->capture_default_str();
    command.add_option("--shadow-angle", faults.shadow_angle, "Which way it lies, degrees from rightward")
        ->capture_default_str();
    command
        .add_option("--lamp-gradient", faults.lamp_gradient,
                    "How much the second lamp's share grows from left to right, 0 to 1")
        ->capture_default_str();
    command.add_option("--banding", faults.banding_percent, "Percent of light lost in dark bands")
        ->capture_default_str();
    command.add_option("--banding-period", faults.banding_period, "From band to band, share of the height")
        ->capture_default_str();
    command
        .add_option("--glint", faults.glint_percent, "Percent of the lamp mirrored by a spot of the repair")
        ->capture_default_str();
}

void add_file_faults(CLI::App& command, PracticeFaults& faults) {
    command.add_option("--card-size", faults.card_size, "Times the size that fits, 0.05 to 1")
        ->capture_default_str();
    command.add_option("--saturation", faults.saturation, "Of a picture style, 0 to 2")
        ->capture_default_str();
    command.add_option("--hue-twist", faults.hue_twist, "Degrees that a picture style turns every hue")
        ->capture_default_str();
    command
        .add_option("--tint", faults.tint_percent,
                    "Percent of yellow in the lights, and of blue in the shadows")
        ->capture_default_str();
    command.add_option("--local-tones", faults.local_tones, "How far surroundings are evened out, 0 to 0.8")
        ->capture_default_str();
    command
        .add_option("--first-quality", faults.first_jpeg_quality,
                    "JPEG quality of an earlier saving; 0 for none")
        ->capture_default_str();
}

struct PracticeArguments {
    PracticeOptions options;
    std::string out;
    bool force = false;
};

void require_picture_name(const std::string& out) {
    const std::string extension = file_ending(out);
    for (const char* known : {".png", ".tif", ".tiff", ".jpg", ".jpeg", ".webp", ".dng"})
        if (extension == known) return;
    throw InputError(fmt::format(
        "{}: a practice picture is written as .png, .tif, .jpg, .webp or .dng; choose such a name",
        one_line(out, 400)));
}

// As a shell takes it for one word.
std::string shell_word(const std::string& word) {
    if (!word.empty() &&
        word.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                               "_-+=:,./@%") == std::string::npos)
        return word;
    std::string text = "'";
    for (const char letter : word) text += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
    return text + "'";
}

std::string text_of(const PixelRect& rect) {
    return fmt::format("{},{},{},{}", rect.x, rect.y, rect.width, rect.height);
}

// The command that reads the picture.
std::string comparison_of(const PracticeScene& scene, const std::string& out) {
    std::string text = fmt::format("tonemend compare {} --original {} --repair {} --card {}", shell_word(out),
                                   text_of(scene.original.region), text_of(scene.repair.region),
                                   shell_word(scene.options.card));
    if (scene.options.card_mount == CardMount::bare && scene.card) {
        std::string corners;
        for (const Point& corner : scene.card->corners)
            corners += fmt::format("{}{:.1f},{:.1f}", corners.empty() ? "" : " ", corner.x, corner.y);
        text += " --card-at " + shell_word(corners);
    }
    return text + "\n";
}

void make_practice_picture(const PracticeArguments& arguments) {
    require_picture_name(arguments.out);
    const Replace replace = arguments.force ? Replace::yes : Replace::no;
    require_new(arguments.out, replace);
    require_new(truth_path(arguments.out), replace);
    const PracticeScene scene = make_scene(arguments.options);
    write_practice(scene, arguments.out);
    if (scene.options.subject == PracticeSubject::grey_sheet) {
        print_out(fmt::format("{}\n{}\nfor --flat with the same seed, lamp and camera\n", arguments.out,
                              truth_path(arguments.out).string()));
        return;
    }
    print_out(fmt::format(
        "{}\n{}\n{}", arguments.out, truth_path(arguments.out).string(),
        scene.card ? comparison_of(scene, arguments.out) : "no card lies in it, so it cannot be compared\n"));
}

}  // namespace

void add_practice_command(CLI::App& app, ExitStatus& status) {
    auto arguments = std::make_shared<PracticeArguments>();
    CLI::App* command = app.add_subcommand("practice",
                                           "Make a practice picture: wood, repair and card under a lamp, "
                                           "with the true colours in a file beside it");
    command->add_option("picture", arguments->out, "File to write: .png, .tif, .jpg, .webp or .dng")
        ->required();
    command->add_option("--seed", arguments->options.seed, "The same seed makes the same picture")
        ->capture_default_str();
    command->add_option("--width", arguments->options.width, "Pixels")->capture_default_str();
    command->add_option("--height", arguments->options.height, "Pixels")->capture_default_str();
    add_wood_options(*command, arguments->options);
    add_light_options(*command, arguments->options);
    add_camera_options(*command, arguments->options);
    add_card_options(*command, arguments->options);
    add_light_faults(*command, arguments->options.faults);
    add_file_faults(*command, arguments->options.faults);
    command->add_flag("--force", arguments->force, "Replace a picture that exists");
    command->callback([arguments, &status] {
        make_practice_picture(*arguments);
        status = ExitStatus::measured;
    });
}

}  // namespace tonemend
