#include "picture/lcms_session.h"

#include <new>

#include "picture/text_line.h"

namespace tonemend {

LcmsSession::LcmsSession() : context_(cmsCreateContext(nullptr, this)) {
    if (!context_) throw std::bad_alloc();
    cmsSetLogErrorHandlerTHR(context_, on_error);
}

LcmsSession::~LcmsSession() {
    cmsDeleteContext(context_);
}

std::string LcmsSession::error() const {
    return one_line(error_);
}

LcmsProfile LcmsSession::open(std::span<const std::uint8_t> bytes) const {
    return LcmsProfile(
        cmsOpenProfileFromMemTHR(context_, bytes.data(), static_cast<cmsUInt32Number>(bytes.size())));
}

void LcmsSession::on_error(cmsContext context, cmsUInt32Number, const char* text) {
    static_cast<LcmsSession*>(cmsGetContextUserData(context))->error_ = text;
}

}  // namespace tonemend
