#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "colour/matrix3.h"

namespace tonemend {

/// Turns encoded R, G, B (0..1) into linear-light R, G, B of the frame's own linear space. Three curves, or,
/// for an ICC profile that is a lookup table, one function of all three channels.
class Decoding {
  public:
    virtual ~Decoding() = default;
    /// True when channel c's linear value depends on encoded channel c alone: then a table per channel
    /// serves.
    virtual bool separable() const = 0;
    /// `pixels` triples of encoded RGB in, as many of linear-light RGB out; 0 is black and 1 the encoded
    /// maximum. In and out may be the same array. May be called from several threads.
    virtual void decode(const float* encoded, float* linear, std::size_t pixels) const = 0;
    /// The ICC profile that holds the lookup table; empty when the decoding is separable.
    virtual std::span<const std::uint8_t> profile() const { return {}; }
};

/// How the samples of a frame relate to light.
struct ColourEncoding {
    std::string
        description;  ///< for people: "sRGB (assumed, no profile)", "embedded ICC profile 'shop camera'", …
    std::shared_ptr<const Decoding> decoding;
    Matrix3 to_xyz_d50;  ///< linear RGB → XYZ adapted to D50; R = G = B = 1 gives the D50 white
    std::array<double, 3> native_balance{1, 1,
                                         1};  ///< raw: gains that make daylight (D65) neutral in camera RGB
    bool assumed = false;                     ///< nothing in the file said so
    bool camera_native = false;               ///< raw: linear camera RGB before any white balance
};

/// What the camera wrote about the exposure; each is absent when the file does not say.
struct CaptureFacts {
    std::string camera;  ///< maker and model, empty if unknown
    std::optional<double> exposure_seconds;
    std::optional<double> f_number;
    std::optional<double> iso;
    std::optional<bool> white_balance_automatic;
    std::optional<bool> exposure_automatic;
    std::optional<bool> flash_fired;
    std::optional<int> jpeg_quality;  ///< 1..100 estimated from the quantisation tables
    bool raw = false;
    int mean_of = 1;  ///< camera frames whose mean this is; each had been rounded to 8 bits
};

enum class SampleType { uint8, uint16, float32 };

/// A decoded still or camera frame: interleaved R, G, B as encoded by its maker, turned upright.
struct Frame {
    std::string name;  ///< the file or source, for messages
    int width = 0;
    int height = 0;
    SampleType type = SampleType::uint8;
    std::vector<std::byte> samples;  ///< height × width × 3 samples of `type`, no padding; float32 is 0..1
    ColourEncoding encoding;
    CaptureFacts facts;

    std::size_t bytes_per_sample() const;
    const std::byte* row(int y) const;
};

}  // namespace tonemend
