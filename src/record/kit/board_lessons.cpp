#include "record/kit/board_lessons.h"

#include "picture/small_letters.h"

namespace tonemend {

CoatPlace place_of(const std::string& wood, const std::string& board, int grit) {
    return {wood.empty() ? "wood of " + board : in_small_letters(wood), board, grit};
}

std::vector<CoatObservation> observations_of(std::span<const KeptBoard> boards, const Kit& kit,
                                             const ModelJars& jars) {
    std::vector<CoatObservation> seen;
    for (const KeptBoard& kept : boards)
        for (CoatObservation& one : observations_of(kept.board, kit, jars)) {
            one.place = place_of(kept.board.wood, kept.uid, kept.board.grit);
            seen.push_back(std::move(one));
        }
    return seen;
}

}  // namespace tonemend
