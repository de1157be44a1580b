#include "advise/model/wood_look.h"

namespace tonemend {

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
