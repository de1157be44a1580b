#include "advise/schedule/missing_jar.h"

#include <algorithm>

namespace tonemend {

std::optional<MissingJar> find_missing_jar(const MoveQuestion& question, const WoodLook& from) {
    constexpr std::array hues{HueWord::yellow, HueWord::orange, HueWord::red,       HueWord::brown,
                              HueWord::umber,  HueWord::sienna, HueWord::red_oxide, HueWord::black};
    std::vector<ColourantModel::Colourant> usual;
    for (const ColourantGroup group : {ColourantGroup::dye, ColourantGroup::pigment})
        for (const HueWord hue : hues) usual.push_back({group, hue});
    const ColourantModel model(usual, {});
    MoveQuestion asked = question;
    asked.model = &model;
    asked.now = {from, question.now.covariance};
    asked.earlier.assign(usual.size(), 0);
    // The middle of what is believed, not what may come out: nothing is put on by this.
    asked.price = {1, 0};
    asked.second = nullptr;
    std::optional<MissingJar> best;
    const double stands = stand_now(asked).de2000;
    for (std::size_t i = 0; i < usual.size(); ++i) {
        asked.shelf = {{i, 0.02, 1, {}}};
        const std::vector<CoatMove> moves = rank_moves(asked, 1);
        if (moves.empty()) continue;
        if (moves.front().de2000 < (best ? best->de2000 : 0.8 * stands))
            best = MissingJar{*usual[i].hue, usual[i].group, moves.front().de2000};
    }
    return best;
}

}  // namespace tonemend
