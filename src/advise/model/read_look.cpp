#include "advise/model/read_look.h"

#include <algorithm>

namespace tonemend {

double own_deviation(const std::array<double, 3>& u95) {
    constexpr double own_share = 1.0 / 3, least = 0.05, most = 5;
    return std::clamp(own_share * (u95[0] + u95[1] + u95[2]) / 3 / 1.96, least, most);
}

FinishPair pair_of(const ReadLook& bare, const ReadLook& finished) {
    const double before = 1.96 * bare.u, after = 1.96 * finished.u;
    return {whole_of(bare.look), whole_of(finished.look), {before, before, before}, {after, after, after}};
}

ReadLook look_of(const Reading& reading, const std::array<double, 3>& u95) {
    return {{reading.ground, reading.figure, reading.figure_share}, own_deviation(u95)};
}

}  // namespace tonemend
