#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advise/kit/kit.h"
#include "advise/model/colourant_model.h"
#include "measure/finish_on.h"

namespace tonemend {

/// A coat on a strip of a board.
struct StripCoat {
    std::string jar;     ///< name in the kit
    double thinner = 0;  ///< parts to one of colourant
};

/// A reading of a strip.
struct StripReading {
    int coats = 0;       ///< that were on it, and dry
    std::string finish;  ///< name of the clear finish that was on it; empty: bare
    std::string light;   ///< under which, as the user states it; empty: not stated
    std::string taken;   ///< UTC, ISO 8601
    ReadLook look;
};

/// One strip of a board: what was put on, in order, and what it looked like.
struct BoardStrip {
    std::string name;  ///< "1", "2", … or the user's
    std::vector<StripCoat> coats;
    std::vector<StripReading> readings;
};

/// A sample board: one wood, sanded to one grit, strips side by side.
struct SampleBoard {
    std::string name, wood;
    int grit = 150;
    std::vector<BoardStrip> strips;
};

/// Null: there is none of that name.
const BoardStrip* find_strip(const SampleBoard& board, const std::string& name);
/// Made when there is none.
BoardStrip& strip_or_new(SampleBoard& board, const std::string& name);
/// The bare wood, when one of the strips was read so.
std::optional<ReadLook> bare_look(const SampleBoard& board);

/// What the board teaches the model: each pair of bare readings with coats between. Jars that the kit does
/// not hold, and strips with such a jar between, are left out. `board`: what stands for this board, see
/// CoatPlace.
std::vector<CoatObservation> observations_of(const SampleBoard& board, const Kit& kit, const ModelJars& jars,
                                             const std::string& light = {});
/// The same strips bare and with that finish on.
std::vector<FinishPair> finish_pairs_of(const SampleBoard& board, const std::string& finish);

/// Puts a coat on the list of a strip, which is made if there is none of that name. Throws InputError: the
/// kit has no such jar, or it may not be thinned so.
void record_coat(SampleBoard& board, const std::string& strip, const StripCoat& coat, const Kit& kit);
/// Takes the newest thing of a strip back: a reading of it as it is now, else its last coat; a strip of which
/// nothing is left goes. Returns what it was, in words. Throws InputError when there is no such strip.
std::string take_back(SampleBoard& board, const std::string& strip);
/// Adds a reading. Throws InputError when there is no such strip.
void record_reading(SampleBoard& board, const std::string& strip, StripReading reading);

}  // namespace tonemend
