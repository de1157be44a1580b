#include "picture/standard_encodings.h"

#include <algorithm>
#include <cmath>

#include "colour/srgb_curve.h"

namespace tonemend {
namespace {

class CurveDecoding : public Decoding {
  public:
    explicit CurveDecoding(std::array<std::function<double(double)>, 3> curves)
        : curves_(std::move(curves)) {}
    bool separable() const override { return true; }
    void decode(const float* encoded, float* linear, std::size_t pixels) const override {
        for (std::size_t i = 0; i < pixels; ++i)
            for (std::size_t c = 0; c < 3; ++c)
                linear[3 * i + c] = static_cast<float>(curves_[c](static_cast<double>(encoded[3 * i + c])));
    }

  private:
    std::array<std::function<double(double)>, 3> curves_;
};

class LinearDecoding : public Decoding {
  public:
    bool separable() const override { return true; }
    void decode(const float* encoded, float* linear, std::size_t pixels) const override {
        if (encoded != linear) std::copy_n(encoded, 3 * pixels, linear);
    }
};

}  // namespace

std::shared_ptr<const Decoding> separable_decoding(std::array<std::function<double(double)>, 3> curves) {
    return std::make_shared<CurveDecoding>(std::move(curves));
}

std::shared_ptr<const Decoding> linear_decoding() {
    return std::make_shared<LinearDecoding>();
}

ColourEncoding srgb_encoding(Provenance provenance) {
    ColourEncoding encoding;
    encoding.assumed = provenance == Provenance::assumed;
    encoding.description = encoding.assumed ? "sRGB (assumed, no profile)" : "sRGB (stated in the file)";
    encoding.decoding = separable_decoding({decode_srgb, decode_srgb, decode_srgb});
    encoding.to_xyz_d50 = rgb_to_xyz_d50(srgb);
    return encoding;
}

ColourEncoding live_video_encoding() {
    static const ColourEncoding encoding = [] {
        ColourEncoding made = srgb_encoding(Provenance::stated);
        made.description = "sRGB curve (live video)";
        return made;
    }();
    return encoding;
}

ColourEncoding linear_srgb_encoding(Provenance provenance) {
    ColourEncoding encoding;
    encoding.assumed = provenance == Provenance::assumed;
    encoding.description = encoding.assumed ? "linear light, sRGB primaries (assumed, no profile)"
                                            : "linear light, sRGB primaries";
    encoding.decoding = linear_decoding();
    encoding.to_xyz_d50 = rgb_to_xyz_d50(srgb);
    return encoding;
}

ColourEncoding op_rgb_encoding(const std::string& description) {
    return gamma_encoding(563.0 / 256.0, op_rgb, description);
}

ColourEncoding gamma_encoding(double gamma, const RgbSpace& space, const std::string& description) {
    const auto curve = [gamma](double encoded) {
        return std::copysign(std::pow(std::abs(encoded), gamma), encoded);
    };
    ColourEncoding encoding;
    encoding.description = description;
    encoding.decoding = separable_decoding({curve, curve, curve});
    encoding.to_xyz_d50 = rgb_to_xyz_d50(space);
    return encoding;
}

}  // namespace tonemend
