#include "measure/carry_region.h"

#include <fmt/format.h>

#include "measure/registration.h"
#include "picture/input_error.h"

namespace tonemend {

std::string_view name(RegionOrigin origin) {
    switch (origin) {
        case RegionOrigin::given:
            return "given";
        case RegionOrigin::carried:
            return "carried";
        case RegionOrigin::same_pixels:
            return "same-pixels";
    }
    return "";
}

PlacedRegion carry_region(const FramedPicture& first, const FramedPicture& other, const Region& region,
                          const std::string& option) {
    const Frame &here = *first.frame, &there = *other.frame;
    if (first.card && other.card) {
        try {
            const RegionMatch match = match_region(here, *first.calibration, there, *other.calibration,
                                                   register_on_card(*first.card, *other.card), region);
            return {match.in_other, RegionOrigin::carried};
        } catch (const InputError&) {
            throw InputError(fmt::format(
                "{}: a region of {} lies outside this picture; say where it is with {}, or photograph it "
                "again with both regions in view",
                there.name, here.name, option));
        }
    }
    if (here.width != there.width || here.height != there.height)
        throw InputError(fmt::format(
            "{}: {} × {} pixels, where {} has {} × {}, and no card frame was found in both to lay one over "
            "the other; say where the region is with {}",
            there.name, there.width, there.height, here.name, here.width, here.height, option));
    return {region, RegionOrigin::same_pixels};
}

}  // namespace tonemend
