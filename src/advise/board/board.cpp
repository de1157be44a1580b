#include "advise/board/board.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "advise/model/read_look.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

// Coats of the same jar that lie below the one at `index`.
int earlier_coats(const BoardStrip& strip, const Kit& kit, std::size_t index) {
    const auto jar = kit.find(strip.coats[index].jar);
    int count = 0;
    for (std::size_t i = 0; i < index; ++i) count += kit.find(strip.coats[i].jar) == jar ? 1 : 0;
    return count;
}

BoardStrip& strip_there(SampleBoard& board, const std::string& name) {
    for (BoardStrip& strip : board.strips)
        if (strip.name == name) return strip;
    throw InputError(
        fmt::format("board '{}' has no strip '{}'", one_line(board.name, 60), one_line(name, 60)));
}

// The newest bare reading with so many coats on.
const StripReading* bare_reading(const BoardStrip& strip, int coats, const std::string& light) {
    const StripReading* newest = nullptr;
    for (const StripReading& reading : strip.readings)
        if (reading.coats == coats && reading.finish.empty() && (light.empty() || reading.light == light))
            newest = &reading;
    return newest;
}

}  // namespace

const BoardStrip* find_strip(const SampleBoard& board, const std::string& name) {
    for (const BoardStrip& strip : board.strips)
        if (strip.name == name) return &strip;
    return nullptr;
}

BoardStrip& strip_or_new(SampleBoard& board, const std::string& name) {
    return find_strip(board, name) != nullptr ? strip_there(board, name)
                                              : board.strips.emplace_back(BoardStrip{name, {}, {}});
}

std::optional<ReadLook> bare_look(const SampleBoard& board) {
    for (const BoardStrip& strip : board.strips)
        for (const StripReading& reading : strip.readings)
            if (reading.coats == 0 && reading.finish.empty()) return reading.look;
    return std::nullopt;
}

std::vector<CoatObservation> observations_of(const SampleBoard& board, const Kit& kit, const ModelJars& jars,
                                             const std::string& light) {
    std::vector<CoatObservation> seen;
    for (const BoardStrip& strip : board.strips) {
        const StripReading* before = bare_reading(strip, 0, light);
        StripReading beside;
        if (before == nullptr) {
            // Read bare only beside this strip: the board is not quite one colour.
            for (const BoardStrip& other : board.strips)
                if (const StripReading* found = bare_reading(other, 0, light)) before = found;
            if (before != nullptr) {
                constexpr double along_a_board = 0.7;
                beside = *before;
                beside.look.u = std::hypot(beside.look.u, along_a_board);
                before = &beside;
            }
        }
        for (int coats = 1; coats <= static_cast<int>(strip.coats.size()); ++coats) {
            const StripReading* after = bare_reading(strip, coats, light);
            if (after == nullptr) continue;
            if (before != nullptr) {
                CoatObservation observation{
                    {}, {board.wood, board.name, board.grit}, before->look, after->look};
                bool known = true;
                for (int i = before->coats; i < coats; ++i) {
                    const StripCoat& coat = strip.coats[static_cast<std::size_t>(i)];
                    const auto jar = kit.find(coat.jar);
                    const auto colourant = jar ? jars.colourant[*jar] : std::nullopt;
                    known = known && jar.has_value();
                    // A sealer between changes little that is seen.
                    if (colourant)
                        observation.coats.push_back({*colourant, concentration_of(coat.thinner),
                                                     earlier_coats(strip, kit, static_cast<std::size_t>(i))});
                }
                if (known && !observation.coats.empty()) seen.push_back(std::move(observation));
            }
            before = after;
        }
    }
    return seen;
}

std::vector<FinishPair> finish_pairs_of(const SampleBoard& board, const std::string& finish) {
    std::vector<FinishPair> pairs;
    for (const BoardStrip& strip : board.strips)
        for (const StripReading& reading : strip.readings) {
            if (reading.finish.empty() || in_small_letters(reading.finish) != in_small_letters(finish))
                continue;
            const StripReading* bare = bare_reading(strip, reading.coats, reading.light);
            if (bare == nullptr) continue;
            pairs.push_back(pair_of(bare->look, reading.look));
        }
    return pairs;
}

void record_coat(SampleBoard& board, const std::string& name, const StripCoat& coat, const Kit& kit) {
    const auto found = kit.find(coat.jar);
    if (!found)
        throw InputError(fmt::format("kit '{}' has no '{}'; 'tonemend kit show' lists what it has",
                                     one_line(kit.name, 60), one_line(coat.jar, 60)));
    const KitJar& jar = kit.jars[*found];
    constexpr double slack = 1e-9;
    if (!(coat.thinner >= jar.least_thinner - slack && coat.thinner <= jar.most_thinner + slack))
        throw InputError(
            fmt::format("'{}' may be thinned with {:g} to {:g} parts, not {:g}; 'tonemend kit set' changes "
                        "what is allowed",
                        one_line(jar.name, 60), jar.least_thinner, jar.most_thinner, coat.thinner));
    strip_or_new(board, name).coats.push_back({jar.name, coat.thinner});
}

void record_reading(SampleBoard& board, const std::string& name, StripReading reading) {
    strip_there(board, name).readings.push_back(std::move(reading));
}

std::string take_back(SampleBoard& board, const std::string& name) {
    BoardStrip& strip = strip_there(board, name);
    std::string words;
    if (!strip.readings.empty() && strip.readings.back().coats == static_cast<int>(strip.coats.size())) {
        strip.readings.pop_back();
        words = fmt::format("the newest reading of strip {}", name);
    } else if (!strip.coats.empty()) {
        words = fmt::format("the coat of {} on strip {}", strip.coats.back().jar, name);
        strip.coats.pop_back();
    }
    if (strip.coats.empty() && strip.readings.empty()) {
        if (words.empty()) words = "strip " + name;
        board.strips.erase(board.strips.begin() + (&strip - board.strips.data()));
    }
    return words;
}

}  // namespace tonemend
