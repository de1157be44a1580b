#pragma once

#include <lcms2.h>

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace tonemend {

struct FreeLcmsCurve {
    void operator()(cmsToneCurve* curve) const { cmsFreeToneCurve(curve); }
};
using LcmsCurve = std::unique_ptr<cmsToneCurve, FreeLcmsCurve>;
struct FreeLcmsPipeline {
    void operator()(cmsPipeline* pipeline) const { cmsPipelineFree(pipeline); }
};
using LcmsPipeline = std::unique_ptr<cmsPipeline, FreeLcmsPipeline>;
struct FreeLcmsText {
    void operator()(cmsMLU* text) const { cmsMLUfree(text); }
};
using LcmsText = std::unique_ptr<cmsMLU, FreeLcmsText>;

struct CloseLcmsProfile {
    void operator()(void* profile) const { cmsCloseProfile(profile); }
};
using LcmsProfile = std::unique_ptr<void, CloseLcmsProfile>;

/// A Little CMS context of its own, whose messages are kept instead of printed. Not to be moved: the library
/// holds its address.
class LcmsInstance {
  public:
    LcmsInstance();
    ~LcmsInstance();
    LcmsInstance(const LcmsInstance&) = delete;
    LcmsInstance& operator=(const LcmsInstance&) = delete;

    cmsContext context() const { return context_; }
    /// The last message, one line; empty if none.
    std::string error() const;
    /// Null when the bytes are no profile.
    LcmsProfile open(std::span<const std::uint8_t> bytes) const;

  private:
    static void on_error(cmsContext context, cmsUInt32Number code, const char* text);
    cmsContext context_ = nullptr;
    std::string error_;
};

/// The profile as a file's bytes; always the same for the same content: its date is fixed.
std::vector<std::uint8_t> saved_profile(const LcmsProfile& profile);

/// The same with its identifier, the MD5 of its content (ICC.1:2022, 7.2.18), in its header.
std::vector<std::uint8_t> identified_profile(const LcmsInstance& lcms, const LcmsProfile& profile);

}  // namespace tonemend
