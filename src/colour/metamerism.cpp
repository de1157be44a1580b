#include "colour/metamerism.h"

#include "colour/difference.h"

namespace tonemend {

MetamerismIndex special_metamerism_index(const PairUnderLight& first, const PairUnderLight& second,
                                         const WhitePoint& second_white) {
    const XYZ corrected{second.repair.X * first.original.X / first.repair.X,
                        second.repair.Y * first.original.Y / first.repair.Y,
                        second.repair.Z * first.original.Z / first.repair.Z};
    const Lab original = to_lab(second.original, second_white), repair = to_lab(corrected, second_white);
    return {delta_e_76(original, repair), ciede2000(original, repair).value};
}

}  // namespace tonemend
