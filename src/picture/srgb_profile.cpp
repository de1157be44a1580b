#include "picture/srgb_profile.h"

#include "picture/lcms_instance.h"

namespace tonemend {

std::vector<std::uint8_t> srgb_profile() {
    const LcmsInstance lcms;
    return saved_profile(LcmsProfile(cmsCreate_sRGBProfileTHR(lcms.context())));
}

}  // namespace tonemend
