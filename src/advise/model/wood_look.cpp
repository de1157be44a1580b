#include "advise/model/wood_look.h"

#include <cmath>

namespace tonemend {

bool can_be_seen(const Lab& lab) {
    constexpr double darkest = -20, lightest = 150, most = 200;
    return lab.L >= darkest && lab.L <= lightest && std::abs(lab.a) <= most && std::abs(lab.b) <= most;
}

WoodLook plain_look(const Lab& lab) {
    return {lab, lab, 0};
}

Lab whole_of(const WoodLook& look) {
    if (look.plain()) return look.ground;
    const XYZ ground = to_xyz(look.ground, d50_icc), figure = to_xyz(look.figure, d50_icc);
    const double share = look.figure_share, rest = 1 - share;
    return to_lab(XYZ{rest * ground.X + share * figure.X, rest * ground.Y + share * figure.Y,
                      rest * ground.Z + share * figure.Z},
                  d50_icc);
}

}  // namespace tonemend
