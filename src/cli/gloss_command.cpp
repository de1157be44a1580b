#include <CLI/CLI.hpp>
#include <memory>
#include <nlohmann/json.hpp>
#include <span>

#include "cli/check_tolerance.h"
#include "cli/commands.h"
#include "cli/destinations.h"
#include "cli/gloss_options.h"
#include "cli/gloss_summary.h"
#include "cli/new_file.h"
#include "cli/output.h"
#include "measure/gloss.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"
#include "record/comparison_json.h"
#include "record/gloss_json.h"
#include "record/gloss_map_picture.h"
#include "record/lamp_drawing.h"

namespace tonemend {
namespace {

struct GlossOptions {
    LampPositionOptions lamps;
    std::string original, repair;
    double tolerance = default_tolerance;
    bool json = false, advice = false, force = false;
    std::string save_map, save_drawing;
};

ExitStatus advise(const GlossOptions& options) {
    if (!options.save_drawing.empty()) {
        require_new(options.save_drawing, options.force ? Replace::yes : Replace::no);
        const std::string svg = draw_lamps(plan_lamps());
        write_whole_file(options.save_drawing, std::as_bytes(std::span(svg)));
    }
    print_out(advise_on_lamps());
    return ExitStatus::measured;
}

// With --advice nothing else is asked for, so the parser cannot ask.
void require_given(const GlossOptions& options) {
    if (options.lamps.pictures.empty()) throw CLI::RequiredError("pictures");
    if (options.original.empty()) throw CLI::RequiredError("--original");
    if (options.repair.empty()) throw CLI::RequiredError("--repair");
}

ExitStatus measure(const GlossOptions& options) {
    const Region original = parse_region(options.original, "--original");
    const Region repair = parse_region(options.repair, "--repair");
    require_destinations(options.lamps.pictures.front(), options.save_map);
    const ReadLampPositions read = read_lamp_positions(options.lamps);
    const GlossResult result = measure_gloss(read.positions, original, repair, options.tolerance);
    if (!options.save_map.empty())
        save_annotated_picture(picture_of_gloss(map_gloss(read.positions), read.positions.front(), result),
                               options.save_map);
    print_out(options.json ? to_text(to_json(read.positions, result))
                           : summarise_gloss(read.positions, result, detect_swatches()));
    return result.without_gloss.unfit() ? ExitStatus::unfit : ExitStatus::measured;
}

}  // namespace

void add_gloss_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<GlossOptions>();
    CLI::App* command = app.add_subcommand(
        "gloss",
        "Compare without what the finish mirrors, and compare the sheens, in pictures with the lamp moved");
    add_lamp_position_options(*command, options->lamps);
    command->add_option(
        "--original", options->original,
        "Region of the original finish in the first picture: x,y,w,h or 'x1,y1 x2,y2 x3,y3 …'");
    command->add_option("--repair", options->repair, "Region of the repair, likewise");
    command->add_option("--tolerance", options->tolerance, "ΔE2000 at which the repair passes, 0.05 to 20")
        ->check(check_tolerance)
        ->capture_default_str();
    command->add_flag("--json", options->json, "Print one JSON object and nothing else");
    command->add_option("--save-map", options->save_map,
                        "Write where the finish mirrors, in greys (PNG); one that is there is replaced");
    command->add_flag("--advice", options->advice,
                      "Say how to place lamps and polarisers, and measure nothing");
    command->add_option("--save-drawing", options->save_drawing,
                        "With --advice: write the drawing of it (SVG) to this file");
    command->add_flag("--force", options->force, "Replace a drawing that exists");
    command->callback([options, &status] {
        if (options->advice) {
            status = advise(*options);
            return;
        }
        require_given(*options);
        status = measure(*options);
    });
}

}  // namespace tonemend
