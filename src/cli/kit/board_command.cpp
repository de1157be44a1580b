// Sample boards: begun, painted by the guide's advice, read from one picture.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <memory>
#include <set>

#include "advise/board/guide.h"
#include "advise/board/strip_regions.h"
#include "advise/kit/cautions.h"
#include "advise/model/read_look.h"
#include "cli/calibration_options.h"
#include "cli/commands.h"
#include "cli/job/add_part.h"
#include "cli/job/job_choice.h"
#include "cli/kit/kit_text.h"
#include "cli/lab_text.h"
#include "cli/output.h"
#include "measure/comparison.h"
#include "picture/text_line.h"
#include "record/kit/board_lessons.h"
#include "record/kit/kit_shelf.h"
#include "record/kit/kit_words.h"
#include "record/store/dilution.h"
#include "record/store/store_text.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

struct BoardOptions {
    JobChoice choice;  // its store
    std::string kit, name;
    SampleBoard board;
    std::string bare, strip, jar, dilution = "0:1";
    std::size_t most = 6;
    CalibrationOptions light;
    std::string picture, across, finish;
    std::vector<std::string> strips, places;
};

struct OpenBoard {
    std::unique_ptr<JobStore> store;
    KeptKit kit;
    KeptBoard board;
};

OpenBoard open_board(const BoardOptions& options, StoreUse use = StoreUse::keeping) {
    OpenBoard opened;
    opened.store = open_chosen(options.choice, use);
    KitShelf shelf(*opened.store);
    opened.kit = shelf.find_kit(options.kit);
    opened.board = shelf.find_board(opened.kit, options.name);
    return opened;
}

void begin_board(BoardOptions& options) {
    const auto store = open_chosen(options.choice);
    KitShelf shelf(*store);
    options.board.name = options.name;
    const KeptBoard kept = shelf.start_board(shelf.find_kit(options.kit), options.board);
    print_out(fmt::format(
        "  board '{}' is begun; sand it to {} as the job will be; 'tonemend board guide' says what to "
        "put on it\n",
        kept.board.name, kept.board.grit));
}

// The bare wood: as given, as a strip of the board was read, or something like it.
ReadLook bare_wood(const BoardOptions& options, const SampleBoard& board) {
    if (!options.bare.empty()) return {plain_look(parse_lab(options.bare, "--bare")), 0.3};
    if (const auto bare = bare_look(board)) return *bare;
    throw InputError(
        "the bare wood was not read yet: read it ('tonemend board read BOARD PICTURE --strip "
        "bare=REGION'), or say what it looks like, for example --bare 70,8,25");
}

// What the guide asks for is known by its place among the strips that are there.
std::string say_advice(const StripAdvice& one, const Kit& kit) {
    const KitJar& jar = kit.jars[one.jar];
    return fmt::format("{:<24} {:<28} {}", jar.name, say_thinning(one.thinner, jar.carrier),
                       one.second ? "a second coat on the same strip" : "a strip of its own");
}

void guide_board(BoardOptions& options) {
    const OpenBoard opened = open_board(options, StoreUse::reading);
    const SampleBoard& board = opened.board.board;
    const ModelJars jars = model_jars(opened.kit.kit);
    if (jars.colourants.empty())
        throw InputError("the kit holds nothing that colours; 'tonemend kit add' adds a jar");
    const std::vector<CoatObservation> seen =
        observations_of(KitShelf(*opened.store).boards(opened.kit), opened.kit.kit, jars);
    const CoatPlace place = place_of(board.wood, opened.board.uid, board.grit);
    const auto advice =
        advise_strips(opened.kit.kit, jars, seen, bare_wood(options, board), place, options.most);
    std::string text =
        fmt::format("  board {}: {}, sanded to {}; {} coats of this kit were read so far, {} on {}\n",
                    board.name, board.wood, board.grit, seen.size(),
                    std::count_if(seen.begin(), seen.end(),
                                  [&](const CoatObservation& one) { return one.place.wood == place.wood; }),
                    board.wood);
    if (advice.empty()) {
        print_out(text + "  nothing more is worth a strip on this wood\n");
        return;
    }
    text += fmt::format(
        "  as it stands a coat comes out within about ±{:.1f} of what is foretold. Paint in this order:\n\n",
        1.96 * advice.front().before);
    std::set<Danger> dangers;
    for (std::size_t i = 0; i < advice.size(); ++i) {
        text += fmt::format("  {:>3}  {}   then ±{:.1f}\n", i + 1, say_advice(advice[i], opened.kit.kit),
                            1.96 * advice[i].after);
        const KitJar& jar = opened.kit.kit.jars[advice[i].jar];
        dangers.merge(dangers_of(jar.kind, jar.carrier));
    }
    text +=
        "\n  Sand all of the board alike, leave one strip bare, read each strip bare or as it is before a "
        "coat, put on,\n"
        "  wipe, let dry as the label says, read again; at the end finish half of each strip and read that "
        "too\n"
        "  (--finish). 'tonemend board coat' writes down what was put on, 'tonemend board read' reads.\n\n";
    print_out(text + caution_block(dangers));
}

void coat_board(BoardOptions& options) {
    OpenBoard opened = open_board(options);
    const Dilution dilution = parse_dilution(options.dilution);
    if (dilution.colourant <= 0)
        throw InputError("--dilution: there is no colourant in it; give for example 2:1");
    record_coat(opened.board.board, kept_words(options.strip),
                {options.jar, dilution.thinner / dilution.colourant}, opened.kit.kit);
    KitShelf(*opened.store).save(opened.board);
    print_out(say_board(opened.board.board));
}

struct Place {
    std::string strip;
    Region region;
};

// A strip and where it is in the picture.
std::vector<Place> places_in(const BoardOptions& options) {
    std::vector<Place> places;
    for (const std::string& text : options.places) {
        const std::size_t sign = text.find('=');
        if (sign == std::string::npos || sign == 0)
            throw InputError(
                fmt::format("--strip '{}': give the strip's name and where it is, for example "
                            "--strip 2=410,300,120,400",
                            one_line(text, 60)));
        places.push_back({kept_words(text.substr(0, sign)), parse_region(text.substr(sign + 1), "--strip")});
        if (places.back().strip.empty()) throw InputError("--strip: a strip needs a name before the =");
    }
    if (!options.across.empty()) {
        if (options.strips.empty())
            throw InputError("--across: name the strips from left to right, for example --strips 1 2 3 4");
        const auto regions = strip_regions(parse_quad(options.across, "--across"), options.strips.size());
        for (std::size_t i = 0; i < regions.size(); ++i)
            places.push_back({kept_words(options.strips[i]), regions[i]});
    }
    if (places.empty())
        throw InputError(
            "say where the strips are: --strip NAME=REGION for each, or the board's corners with --across "
            "and the strips' names with --strips");
    return places;
}

void read_board(BoardOptions& options) {
    OpenBoard opened = open_board(options);
    SampleBoard& board = opened.board.board;
    const std::vector<Place> places = places_in(options);
    const Frame frame = read_frame(options.picture, options.light);
    const Calibration calibration = calibrate(frame, options.light);
    std::string text;
    std::set<std::string> said;  // of the card, which every strip shares
    for (const Warning& warning : calibration.warnings) {
        if (warning.unfit)
            throw InputError(fmt::format("{}: no colour can be read in it: {} ({}); nothing is kept",
                                         frame.name, warning.text, warning.code));
        said.insert(warning.code);
        text += fmt::format("  mind: {} ({})\n", warning.text, warning.code);
    }
    for (const Place& place : places) {
        // Held against itself, which looks the region over like any other.
        const Comparison looked = compare_regions(frame, calibration, place.region, place.region);
        for (const Warning& warning : looked.warnings) {
            if (warning.code == "regions-overlap" || said.contains(warning.code)) continue;
            if (warning.unfit || warning.code == "region-on-card" || warning.code == "not-one-colour")
                throw InputError(fmt::format("{}, strip {}: {} ({}); nothing is kept", frame.name,
                                             place.strip, warning.text, warning.code));
            text += fmt::format("  mind, strip {}: {} ({})\n", place.strip, warning.text, warning.code);
        }
        const Reading& reading = looked.original;
        StripReading kept;
        kept.coats = static_cast<int>(strip_or_new(board, place.strip).coats.size());
        kept.finish = kept_words(options.finish);
        kept.light = calibration.stated.light ? calibration.stated.light->text : "";
        kept.taken = utc_now();
        kept.look = look_of(reading, reading.lab_u95);
        record_reading(board, place.strip, kept);
    }
    KitShelf(*opened.store).save(opened.board);
    print_out(text + say_board(board));
}

// The newest thing of a strip: its reading as it is now, else its last coat.
void take_back_board(BoardOptions& options) {
    OpenBoard opened = open_board(options);
    const std::string words = take_back(opened.board.board, kept_words(options.strip));
    KitShelf(*opened.store).save(opened.board);
    print_out("  " + words + " is taken back\n");
}

void list_boards(BoardOptions& options) {
    const auto store = open_chosen(options.choice, StoreUse::reading);
    KitShelf shelf(*store);
    std::string text;
    for (const KeptKit& kept : shelf.kits())
        for (const KeptBoard& board : shelf.boards(kept)) text += say_board(board.board);
    print_out(text.empty() ? "  no board yet; 'tonemend board new NAME --wood WOOD --grit N' begins one\n"
                           : text);
}

void show_board(BoardOptions& options) {
    const OpenBoard opened = open_board(options, StoreUse::reading);
    print_out(say_board(opened.board.board));
}

void drop_board(BoardOptions& options) {
    const OpenBoard opened = open_board(options);
    KitShelf(*opened.store).take_away(opened.board);
    print_out(fmt::format("  board '{}' is off the list and teaches no more\n", opened.board.board.name));
}

}  // namespace

void add_board_command(CLI::App& app, ExitStatus& status) {
    CLI::App* board = app.add_subcommand("board", "Sample boards: what to put on one, and what it teaches");
    board->require_subcommand(1, 1);
    const auto options = std::make_shared<BoardOptions>();
    const auto named = [&](const char* name, const char* help, void (*act)(BoardOptions&)) {
        CLI::App* part = add_part(*board, status, name, help, options, act);
        part->add_option("board", options->name, "The board")->required();
        add_kit_choice(*part, options->kit);
        add_store_option(*part, options->choice);
        return part;
    };
    CLI::App* part = named("new", "Begin a board", begin_board);
    part->add_option("--wood", options->board.wood, "Its wood, as you call it")->required();
    part->add_option("--grit", options->board.grit, "That it is sanded to")->required();
    part = named("guide", "Which strips teach the most, and in which order", guide_board);
    part->add_option("--bare", options->bare, "The bare wood's colour L*,a*,b*, if it was not read");
    part->add_option("--most", options->most, "At most so many strips")
        ->check(CLI::Range(1, 40))
        ->capture_default_str();
    part = named("coat", "Write down a coat on a strip", coat_board);
    part->add_option("strip", options->strip, "The strip; a new name is a new strip")->required();
    part->add_option("colourant", options->jar, "The jar")->required();
    part->add_option("--dilution", options->dilution, "Parts of thinner to parts of colourant, as 2:1")
        ->capture_default_str();
    part = named("read", "Read strips from a picture with the card", read_board);
    part->add_option("picture", options->picture, "JPEG, PNG, TIFF, WebP or camera raw")->required();
    part->add_option("--strip", options->places, "NAME=REGION; once for each strip")->allow_extra_args(false);
    part->add_option(
        "--across", options->across,
        "The board's corners, top left, top right, bottom right, bottom left: 'x1,y1 x2,y2 x3,y3 x4,y4'");
    part->add_option("--strips", options->strips, "With --across: the strips' names from left to right");
    part->add_option("--finish", options->finish,
                     "The clear finish that is on; without it they are bare and dry");
    add_calibration_options(*part, options->light);
    add_saved_calibration_option(*part, options->light);
    part = named("undo", "Take the newest reading or coat of a strip back", take_back_board);
    part->add_option("strip", options->strip, "The strip")->required();
    named("show", "Its strips and readings", show_board);
    add_store_option(*add_part(*board, status, "list", "All boards", options, list_boards), options->choice);
    named("drop", "Take it off the list", drop_board);
}

}  // namespace tonemend
