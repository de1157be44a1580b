#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "calibrate/calibration.h"
#include "calibrate/card/find_card.h"
#include "picture/frame.h"
#include "picture/region.h"

namespace tonemend {

/// A calibrated picture, and the card frame if it was found in it.
struct FramedPicture {
    const Frame* frame = nullptr;  ///< not owned, like the next
    const Calibration* calibration = nullptr;
    std::optional<FoundCard> card;
};

enum class RegionOrigin {
    given,        ///< by the person
    carried,      ///< from another picture of the scene, by the card frames and the grain
    same_pixels,  ///< of another picture, because a card frame was missing
};

/// "given", "carried", "same-pixels".
std::string_view name(RegionOrigin origin);

/// A region and how it came about.
struct PlacedRegion {
    Region region;
    RegionOrigin origin = RegionOrigin::given;
};

/// Where `region` of `first` lies in `other`, a picture of the same scene: carried over by match_region when
/// both show a card frame, else the same pixels. Throws InputError that names `option`, by which the person
/// can say it: the region lies outside the other picture, or there is no frame and the sizes differ.
PlacedRegion carry_region(const FramedPicture& first, const FramedPicture& other, const Region& region,
                          const std::string& option);

}  // namespace tonemend
