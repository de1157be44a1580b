#pragma once

#include <optional>
#include <vector>

#include "advise/schedule/next_move.h"

namespace tonemend {

/// What is in the cup: parts by volume.
struct Cup {
    struct Part {
        std::size_t colourant = 0;  ///< index in the model
        double parts = 0;
    };
    std::vector<Part> parts;
    double thinner = 0;

    double total() const;
    /// As coats of one application. Colourants of which there is nothing are left out.
    std::vector<AppliedCoat> coats(const std::vector<int>& earlier) const;
};

/// What to add to it.
struct CupAddition {
    std::optional<std::size_t> colourant;  ///< none: thinner
    double parts = 0;                      ///< in the measure of the cup's own parts
    Cup cup;                               ///< then
    CoatMove move;                         ///< a coat of it
};

/// The best additions to what is in the cup, of thinner or of one of the shelf's jars that mix with it,
/// cheapest first; those that are worse than putting it on as it is are left out. A jar's strongest and
/// weakest concentrations are kept to for what is added. At least one part must be in the cup (asserted).
std::vector<CupAddition> rank_additions(const MoveQuestion& question, const Cup& cup, std::size_t most);
/// A coat of the cup as it is.
CoatMove try_cup(const MoveQuestion& question, const Cup& cup);

}  // namespace tonemend
