#include "picture/srgb_profile.h"

#include <algorithm>
#include <array>

#include "picture/lcms_instance.h"

namespace tonemend {

std::vector<std::uint8_t> srgb_profile() {
    const LcmsInstance lcms;
    const LcmsProfile profile(cmsCreate_sRGBProfileTHR(lcms.context()));
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile.get(), nullptr, &size);
    std::vector<std::uint8_t> bytes(size);
    cmsSaveProfileToMem(profile.get(), bytes.data(), &size);
    // The header's creation date (ICC.1:2022, 7.2.10): year, month, day, hours, minutes, seconds, big-endian.
    constexpr std::array<std::uint8_t, 12> date{0x07, 0xEA, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
    std::copy(date.begin(), date.end(), bytes.begin() + 24);
    return bytes;
}

}  // namespace tonemend
