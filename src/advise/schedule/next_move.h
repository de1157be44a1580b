#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "advise/model/colourant_model.h"
#include "advise/schedule/finish_table.h"
#include "advise/schedule/second_look.h"

namespace tonemend {

/// A jar that may be used next.
struct ShelfJar {
    std::size_t colourant = 0;            ///< index in the model
    double weakest = 0.1, strongest = 1;  ///< allowed concentrations, over 0 to 1
    std::string mixes_with;  ///< jars of the same word go into one cup with each other; empty: with none
};

/// How moves are weighed against each other.
struct MovePrice {
    /// Price of each L* that the wood may come out darker than it should, beside the ΔE2000: dark cannot be
    /// undone.
    double darkness = 2;
    /// By how many standard deviations "may come out" is meant.
    double margin = 1.5;
};
/// On a wood of which no coat was read yet what may come out is wider than the model knows.
inline constexpr MovePrice on_known_wood{2, 1.5}, on_unknown_wood{2, 2};

/// What there is and what is wanted.
struct MoveQuestion {
    const ColourantModel* model = nullptr;
    const FinishTable* finish = nullptr;  ///< null: the target is bare
    std::vector<ShelfJar> shelf;
    LookForecast now;          ///< bare, dry: as it was read, or as it is foretold to be by then
    std::vector<int> earlier;  ///< coats on it already, for each of the model's colourants
    CoatPlace place;
    WoodLook target;  ///< the original, as it is: under its finish
    MovePrice price;
    const SecondLook* second = nullptr;  ///< what is known under a second light; null: nothing
};

/// One coat, of one jar or of two in one cup, and what comes of it.
struct CoatMove {
    std::vector<AppliedCoat> coats;  ///< each at its own concentration in the cup
    LookForecast bare;
    WoodLook finished;           ///< as `bare`, under the finish
    double sd_lightness = 0;     ///< of L* of the whole, under the finish
    double de2000 = 0;           ///< of the foretold colour from the target: see apart
    double expected_de2000 = 0;  ///< mean over what may come out
    std::optional<double> second_de2000 = std::nullopt;  ///< under the second light, of the whole
    double too_dark = 0;  ///< L* by which it may come out darker than the target
    double cost = 0;      ///< the mean of expected_de2000 and second_de2000, and price · too_dark
};

/// CIEDE2000 between two looks of one wood: half that of the whole, half that of ground and figure by their
/// shares.
double apart(const WoodLook& look, const WoodLook& target);

/// What comes of these coats.
CoatMove try_coats(const MoveQuestion& question, const std::vector<AppliedCoat>& coats);
/// How it stands now, as a move without coats.
CoatMove stand_now(const MoveQuestion& question);
/// The moves of least cost, each of other jars, cheapest first; those that cost more than doing nothing are
/// left out. Concentrations are found to a hundredth of what is possible.
std::vector<CoatMove> rank_moves(const MoveQuestion& question, std::size_t most);

}  // namespace tonemend
