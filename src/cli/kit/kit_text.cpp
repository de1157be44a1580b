#include "cli/kit/kit_text.h"

#include <fmt/format.h>

#include "record/kit/kit_words.h"

namespace tonemend {

std::string say_jar(const KitJar& jar) {
    std::string text = fmt::format("{}: {}", jar.name, jar.facts().what);
    if (jar.hue) text += fmt::format(", {}", name(*jar.hue));
    text += jar.most_thinner > 0 ? fmt::format(", {:g} to {:g} parts {} to 1", jar.least_thinner,
                                               jar.most_thinner, jar.carrier)
                                 : ", not thinned";
    text += jar.wait_is_known() ? ", next coat after " + say_wait(jar) : ", next coat as its label says";
    if (jar.facts().wipes_back) text += ", wipes back while fresh";
    if (!jar.note.empty()) text += "; " + jar.note;
    return text + "\n";
}

std::string say_kit(const Kit& kit, const std::vector<KeptBoard>& boards) {
    std::string text = fmt::format("  kit {}\n", kit.name);
    for (const KitJar& jar : kit.jars) text += "    " + say_jar(jar);
    if (kit.jars.empty()) text += "    nothing yet; 'tonemend kit add NAME --kind KIND'\n";
    for (const KeptBoard& kept : boards)
        text +=
            fmt::format("    board {}: {}, {} grit, {} strip{}\n", kept.board.name, kept.board.wood,
                        kept.board.grit, kept.board.strips.size(), kept.board.strips.size() == 1 ? "" : "s");
    return text;
}

std::string say_board(const SampleBoard& board) {
    std::string text = fmt::format("  board {}: {}, sanded to {}\n", board.name, board.wood, board.grit);
    for (const BoardStrip& strip : board.strips) {
        text += fmt::format("    strip {}:", strip.name);
        if (strip.coats.empty()) text += " bare";
        for (std::size_t i = 0; i < strip.coats.size(); ++i)
            text += fmt::format("{}{} {:g}:1", i == 0 ? " " : ", then ", strip.coats[i].jar,
                                strip.coats[i].thinner);
        text += "\n";
        for (const StripReading& reading : strip.readings) {
            const Lab whole = whole_of(reading.look.look);
            text += fmt::format("      {} coat{}{}  L* {:.1f}  a* {:.1f}  b* {:.1f}\n", reading.coats,
                                reading.coats == 1 ? "" : "s",
                                reading.finish.empty() ? "" : ", under " + reading.finish, whole.L, whole.a,
                                whole.b);
        }
    }
    if (board.strips.empty()) text += "    no strip yet; 'tonemend board guide' says which teach the most\n";
    return text;
}

std::string caution_block(const std::set<Danger>& dangers) {
    std::string text;
    for (const std::string& line : say_cautions(dangers)) text += fmt::format("  {}\n", line);
    return text;
}

}  // namespace tonemend
