#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "calibrate/calibration.h"
#include "picture/frame.h"
#include "practice/camera.h"
#include "practice/lamp.h"

namespace tonemend::bench {

/// One wood three times: as it was, repaired with its own colourants, repaired with other earths.
struct WoodTrio {
    Bands original, same, earth;
};

/// `count` trios drawn by `seed`, originals and repairs up to 8 ΔE2000 apart under CIE D65.
std::vector<WoodTrio> draw_trios(std::uint64_t seed, std::size_t count);

/// `count` woods as they might lie on a card of known woods: stained with earths, or bare.
std::vector<Bands> draw_boards(std::uint64_t seed, std::size_t count);

/// A small picture: along the top six neutral steps and six known woods, below them the repair with the same
/// colourants, the original, and the repair with other earths, side by side.
struct SceneSpec {
    PracticeCamera camera;
    Lamp lamp;
    WoodTrio woods;
    std::array<Bands, 6> patches;
    double light_residual = 0.006;   ///< what the flat field leaves between original and repair, relative
    std::uint64_t seed = 0;          ///< of noise, tone curve, black level, exposure, slope of the light
    std::vector<Bands> boards = {};  ///< sample boards in rows of six below the regions
};

struct PaintedScene {
    Frame frame;  ///< 16 bits, sRGB primaries, a mild S-curve that nobody is told, black level up to 1 %
    Lab original, same, earth;  ///< truth
    double slope_u = 0;         ///< of the light, a pixel
};

PaintedScene paint(const SceneSpec& spec);

/// The card of the picture with `known_woods` of its six woods described.
Card card_of(const SceneSpec& spec, std::size_t known_woods);
extern const Quad card_corners;
Region original_region();
Region same_region();
Region earth_region();
/// The middle of a sample board.
Region board_region(std::size_t board);
/// Left and right half of the original.
std::array<Region, 2> original_halves();

}  // namespace tonemend::bench
