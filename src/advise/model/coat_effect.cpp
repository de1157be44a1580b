#include "advise/model/coat_effect.h"

#include <algorithm>
#include <cmath>

#include "colour/kubelka_munk.h"

namespace tonemend {

WideChannels after_coat(const WideChannels& before, ColourantGroup group, const CoatStrength& strength,
                        double amount) {
    WideChannels after{};
    for (std::size_t i = 0; i < after.size(); ++i) {
        const double taken = amount * strength.absorption[i];
        switch (group) {
            case ColourantGroup::dye:
                after[i] = infinite_reflectance(k_over_s(before[i]) + taken);
                break;
            case ColourantGroup::pigment:
                after[i] = layer_reflectance({taken, amount * strength.scattering}, before[i]);
                break;
            case ColourantGroup::bleach:
                after[i] = infinite_reflectance(k_over_s(before[i]) * std::exp(-taken));
                break;
        }
        after[i] = std::clamp(after[i], 0.002, 0.995);
    }
    return after;
}

}  // namespace tonemend
