#include "picture/lcms_instance.h"

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

}  // namespace tonemend
