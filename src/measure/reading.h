#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>

#include "calibrate/calibration.h"
#include "colour/lab.h"
#include "measure/glare.h"
#include "measure/ground_figure.h"
#include "measure/sampling.h"
#include "picture/region.h"

namespace tonemend {

/// One region under the light of the picture, adapted to D50.
struct Reading {
    Region region;
    SampleSide side = SampleSide::either;  ///< whose samples correct it
    Lab lab;                               ///< of the mean light of the used pixels
    std::array<double, 3>
        lab_u95{};            ///< half widths of the 95 % intervals of L*, a*, b*; filled by compare_regions
    Lab ground;               ///< the lighter population (the mean itself when the wood is plain)
    Lab figure;               ///< the darker population (the ground's value when the wood is plain)
    double figure_share = 0;  ///< 0 when the wood is plain
    double blank_de2000 = 0;  ///< ΔE2000 between two halves of this region, the worse of left against right
                              ///< and top against bottom: what a true zero looks like here
    std::optional<GroundAndFigure> split;  ///< of the used pixels; nothing when the wood is plain
    GlareGauge glare;                      ///< by which glare was told
    std::size_t pixels = 0;                ///< used
    std::size_t rejected_clipped = 0;
    std::size_t rejected_glare = 0;
    Point centre;         ///< of the used pixels, picture pixels
    SampledMean sampled;  ///< calibrated linear RGB, its covariance

    std::size_t inside() const { return pixels + rejected_clipped + rejected_glare; }
};

/// Reads pixels that were collected before, of `region`; those that stand out as glare are marked in
/// `pixels`.
Reading read_pixels(RegionPixels& pixels, const Calibration& calibration, const Region& region,
                    SampleSide side = SampleSide::either);

/// Reads `region` of `frame`, the wood of `side`. Throws InputError (see collect_pixels).
Reading read_region(const Frame& frame, const Calibration& calibration, const Region& region,
                    const std::string& role, SampleSide side = SampleSide::either);

}  // namespace tonemend
