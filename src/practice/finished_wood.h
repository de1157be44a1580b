#pragma once

#include <cstdint>
#include <vector>

#include "practice/wet_surface.h"

namespace tonemend {

/// One kind of finish from the can: what its films have in common.
struct FinishCan {
    double amber = 0.05;  ///< usual optical density at 400 nm
    double haze = 0;      ///< usual reflectance that its roughness adds
    double least_index = 1.48, most_index = 1.55;
    double least_scattering_lost = 0, most_scattering_lost = 0.2;
};

/// Boards of one wood, stained in several ways, and the same boards with one finish on.
struct FinishedBoards {
    std::vector<Bands> bare;
    std::vector<Bands> finished;
};

/// `count` boards of one of the bench's woods, every third unstained, the others with an earth colourant.
/// Drawn once for all of them: the film's index, its amber (by a factor of e^0.35, one standard deviation, to
/// 1/e within 50 to 75 nm), its haze (by 0.6 to 1.4) and how much scattering the wood loses. For each board a
/// little anew: film's thickness by 10 %, lost scattering by 15 %, haze by 15 %, and how much of the bare
/// board was rubbed so smooth that it is as under a film, up to 6 %.
FinishedBoards draw_finished_boards(const FinishCan& can, int count, std::uint64_t seed);

}  // namespace tonemend
