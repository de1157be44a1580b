// The user's colourants.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <optional>

#include "advise/kit/cautions.h"
#include "cli/commands.h"
#include "cli/job/add_part.h"
#include "cli/job/job_choice.h"
#include "cli/kit/kit_text.h"
#include "cli/output.h"
#include "picture/text_line.h"
#include "record/kit/kit_shelf.h"
#include "record/store/store_text.h"

namespace tonemend {
namespace {

struct KitOptions {
    JobChoice choice;  // its store
    std::string kit, name, kind;
    KitJar jar;
    std::string carrier, hue, note;
    std::optional<double> least, most, dries;
};

// What the options say besides name and kind.
void change(KitJar& jar, const KitOptions& options) {
    if (!options.carrier.empty()) jar.carrier = kept_words(options.carrier);
    if (options.least) jar.least_thinner = *options.least;
    if (options.most) jar.most_thinner = *options.most;
    if (options.dries) jar.dry_minutes = *options.dries;
    if (!options.note.empty()) jar.note = kept_words(options.note);
    if (options.hue.empty()) return;
    jar.hue = find_hue_word(options.hue);
    if (!jar.hue)
        throw InputError(
            fmt::format("--hue '{}': give yellow, orange, red, brown, umber, sienna, 'red oxide' or black",
                        one_line(options.hue, 40)));
}

void show_kit(KitOptions& options) {
    const auto store = open_chosen(options.choice, StoreUse::reading);
    KitShelf shelf(*store);
    std::string text;
    for (const KeptKit& kept : shelf.kits()) text += say_kit(kept.kit, shelf.boards(kept));
    print_out(text.empty() ? "  no kit yet; 'tonemend kit new NAME' begins one\n" : text);
}

void begin_kit(KitOptions& options) {
    const auto store = open_chosen(options.choice);
    const KeptKit kept = KitShelf(*store).start_kit(options.name);
    print_out(fmt::format("  kit '{}' is begun; 'tonemend kit add NAME --kind KIND' puts a jar into it\n",
                          kept.kit.name));
}

void add_jar_by_name(KitOptions& options) {
    const auto store = open_chosen(options.choice);
    KitShelf shelf(*store);
    KeptKit kept = shelf.find_kit(options.kit);
    KitJar jar = usual_jar(kept_words(options.name), parse_kit_kind(options.kind));
    change(jar, options);
    // What belongs to a kind is shown with its first jar.
    const bool known = std::any_of(kept.kit.jars.begin(), kept.kit.jars.end(),
                                   [&](const KitJar& other) { return other.kind == jar.kind; });
    add_jar(kept.kit, jar);
    shelf.save(kept);
    std::string text = "  " + say_jar(jar);
    if (!known) text += caution_block(dangers_of(jar.kind, jar.carrier));
    print_out(text);
}

std::size_t jar_called(const Kit& kit, const std::string& name) {
    const auto found = kit.find(name);
    if (!found) throw InputError(fmt::format("kit '{}' has no '{}'", kit.name, one_line(name, 60)));
    return *found;
}

void set_jar_by_name(KitOptions& options) {
    const auto store = open_chosen(options.choice);
    KitShelf shelf(*store);
    KeptKit kept = shelf.find_kit(options.kit);
    KitJar& jar = kept.kit.jars[jar_called(kept.kit, options.name)];
    change(jar, options);
    require_jar(jar);
    shelf.save(kept);
    print_out("  " + say_jar(jar));
}

void remove_jar_by_name(KitOptions& options) {
    const auto store = open_chosen(options.choice);
    KitShelf shelf(*store);
    KeptKit kept = shelf.find_kit(options.kit);
    const std::size_t found = jar_called(kept.kit, options.name);
    const std::string name = kept.kit.jars[found].name;
    kept.kit.jars.erase(kept.kit.jars.begin() + static_cast<std::ptrdiff_t>(found));
    shelf.save(kept);
    print_out(fmt::format(
        "  '{}' is out of the kit; strips and jobs that name it stay, and teach again when it is back\n",
        name));
}

void drop_kit(KitOptions& options) {
    const auto store = open_chosen(options.choice);
    KitShelf shelf(*store);
    const KeptKit kept = shelf.find_kit(options.name);
    shelf.take_away(kept);
    print_out(fmt::format("  kit '{}' is off the list\n", kept.kit.name));
}

void add_jar_options(CLI::App& part, KitOptions& options) {
    part.add_option("--carrier", options.carrier,
                    "What it is thinned with, if not what is usual for its kind");
    part.add_option("--least-thinner", options.least,
                    "Parts of thinner to one of it, at least (as it comes: 0)");
    part.add_option("--most-thinner", options.most, "And at most");
    part.add_option("--dries", options.dries, "Minutes till the next coat, by its label");
    part.add_option(
        "--hue", options.hue,
        "Its colour, which helps before anything was tried: yellow, orange, red, brown, umber, sienna, "
        "'red oxide' or black");
    part.add_option("--note", options.note, "Anything else");
}

}  // namespace

void add_kit_choice(CLI::App& command, std::string& kit) {
    command.add_option("--kit", kit, "The kit; needed when there are several");
}

void add_kit_command(CLI::App& app, ExitStatus& status) {
    CLI::App* kit =
        app.add_subcommand("kit", "Your colourants: dyes, pigment stains, glazes, toners, bleach, finishes");
    kit->require_subcommand(1, 1);
    const auto options = std::make_shared<KitOptions>();
    add_store_option(*add_part(*kit, status, "show", "What is in your kits", options, show_kit),
                     options->choice);
    CLI::App* part = add_part(*kit, status, "new", "Begin a kit", options, begin_kit);
    part->add_option("name", options->name, "What you call it")->required();
    add_store_option(*part, options->choice);
    part = add_part(*kit, status, "add", "Put a jar into the kit", options, add_jar_by_name);
    part->add_option("name", options->name, "What you call it, or its label does")->required();
    part->add_option("--kind", options->kind,
                     "dye-alcohol, dye-water, dye-oil, pigment-oil, pigment-water, glaze, toner, bleach, "
                     "sealer or clear")
        ->required();
    add_jar_options(*part, *options);
    add_kit_choice(*part, options->kit);
    add_store_option(*part, options->choice);
    part = add_part(*kit, status, "set", "Change what is known of a jar", options, set_jar_by_name);
    part->add_option("name", options->name, "The jar")->required();
    add_jar_options(*part, *options);
    add_kit_choice(*part, options->kit);
    add_store_option(*part, options->choice);
    part = add_part(*kit, status, "remove", "Take a jar out of the kit", options, remove_jar_by_name);
    part->add_option("name", options->name, "The jar")->required();
    add_kit_choice(*part, options->kit);
    add_store_option(*part, options->choice);
    part = add_part(*kit, status, "drop", "Take a whole kit off the list", options, drop_kit);
    part->add_option("name", options->name, "The kit")->required();
    add_store_option(*part, options->choice);
}

}  // namespace tonemend
