#include "calibrate/preflight/card_size.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "picture/region.h"

namespace tonemend {
namespace {

constexpr double least_read_side = 16;  // pixels
constexpr double read_share = 0.7;      // of a patch's side, see read_patches

}  // namespace

double smallest_patch_side(const std::vector<PatchReading>& patches) {
    double smallest = 0;
    for (const PatchReading& reading : patches) {
        if (!reading.patch.neutral()) continue;
        const double side = std::sqrt(area(reading.area)) / read_share;
        smallest = smallest > 0 ? std::min(smallest, side) : side;
    }
    return smallest;
}

std::optional<Warning> warn_of_card_size(const std::vector<PatchReading>& patches) {
    const double side = smallest_patch_side(patches);
    if (side <= 0 || read_share * side >= least_read_side) return std::nullopt;
    return Warning{
        "card-small",
        fmt::format("the card's smallest patch is only {:.0f} pixels wide in the picture; go closer, or "
                    "use a larger card, so that it has {:.0f} or more",
                    side, std::ceil(least_read_side / read_share)),
        false};
}

}  // namespace tonemend
