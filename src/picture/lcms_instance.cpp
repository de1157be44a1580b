#include "picture/lcms_instance.h"

#include <algorithm>
#include <array>
#include <new>

#include "picture/text_line.h"

namespace tonemend {

LcmsInstance::LcmsInstance() : context_(cmsCreateContext(nullptr, this)) {
    if (!context_) throw std::bad_alloc();
    cmsSetLogErrorHandlerTHR(context_, on_error);
}

LcmsInstance::~LcmsInstance() {
    cmsDeleteContext(context_);
}

std::string LcmsInstance::error() const {
    return one_line(error_);
}

LcmsProfile LcmsInstance::open(std::span<const std::uint8_t> bytes) const {
    return LcmsProfile(
        cmsOpenProfileFromMemTHR(context_, bytes.data(), static_cast<cmsUInt32Number>(bytes.size())));
}

void LcmsInstance::on_error(cmsContext context, cmsUInt32Number, const char* text) {
    static_cast<LcmsInstance*>(cmsGetContextUserData(context))->error_ = text;
}

std::vector<std::uint8_t> saved_profile(const LcmsProfile& profile) {
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile.get(), nullptr, &size);
    std::vector<std::uint8_t> bytes(size);
    if (size == 0 || !cmsSaveProfileToMem(profile.get(), bytes.data(), &size)) throw std::bad_alloc();
    // The header's creation date (ICC.1:2022, 7.2.10): year, month, day, hours, minutes, seconds, big-endian.
    constexpr std::array<std::uint8_t, 12> date{0x07, 0xEA, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
    std::copy(date.begin(), date.end(), bytes.begin() + 24);
    return bytes;
}

std::vector<std::uint8_t> identified_profile(const LcmsInstance& lcms, const LcmsProfile& profile) {
    std::vector<std::uint8_t> bytes = saved_profile(profile);
    const LcmsProfile read = lcms.open(bytes);
    if (!read || !cmsMD5computeID(read.get())) throw std::bad_alloc();
    std::array<std::uint8_t, 16> id{};
    cmsGetHeaderProfileID(read.get(), id.data());
    std::copy(id.begin(), id.end(), bytes.begin() + 84);
    return bytes;
}

}  // namespace tonemend
