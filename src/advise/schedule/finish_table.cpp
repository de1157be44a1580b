#include "advise/schedule/finish_table.h"

namespace tonemend {

WoodLook FinishTable::finished(const WoodLook& bare) const {
    const Lab ground = finished(bare.ground);
    return {ground, bare.plain() ? ground : finished(bare.figure), bare.figure_share};
}

}  // namespace tonemend
