#include "picture/icc_decoding.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <vector>

#include <fmt/format.h>

#include "picture/file_bytes.h"
#include "picture/lcms_instance.h"
#include "picture/standard_encodings.h"
#include "picture/still.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr const char* cure = "convert the picture to sRGB, or save it again with a sound RGB profile";

struct FreeCurve {
    void operator()(cmsToneCurve* curve) const { cmsFreeToneCurve(curve); }
};
struct FreeTransform {
    void operator()(void* transform) const { cmsDeleteTransform(transform); }
};

/// A profile's own curve. Formulas are evaluated as such; a table is read here, because Little CMS rounds the
/// values of one to 16 bits.
std::function<double(double)> curve_function(const cmsToneCurve* curve) {
    if (cmsGetToneCurveParametricType(curve) != 0) {
        const std::shared_ptr<cmsToneCurve> own(cmsDupToneCurve(curve), FreeCurve());
        if (!own) return {};
        return [own](double encoded) {
            return static_cast<double>(
                cmsEvalToneCurveFloat(own.get(), static_cast<cmsFloat32Number>(encoded)));
        };
    }
    const cmsUInt16Number* const first = cmsGetToneCurveEstimatedTable(curve);
    const std::vector<cmsUInt16Number> table(first, first + cmsGetToneCurveEstimatedTableEntries(curve));
    return [table](double encoded) {
        const double intervals = static_cast<double>(table.size() - 1);
        const double place = std::isfinite(encoded) ? std::clamp(encoded, 0.0, 1.0) * intervals : 0.0;
        const auto below = static_cast<std::size_t>(place);
        const std::size_t above = std::min(below + 1, table.size() - 1);
        const double part = place - static_cast<double>(below);
        return ((1 - part) * table[below] + part * table[above]) / 65535.0;
    };
}

/// A lookup-table profile through Little CMS in floating point, on to linear ROMM RGB.
class TableDecoding : public Decoding {
  public:
    TableDecoding(std::shared_ptr<LcmsInstance> instance, cmsHTRANSFORM transform,
                  std::span<const std::uint8_t> profile)
        : instance_(std::move(instance)),
          transform_(transform),
          profile_(profile.begin(), profile.end()),
          from_xyz_(inverse(rgb_to_xyz_d50(romm_rgb))) {}

    bool separable() const override { return false; }
    std::span<const std::uint8_t> profile() const override { return profile_; }

    void decode(const float* encoded, float* linear, std::size_t pixels) const override {
        constexpr std::size_t block = 256;
        std::array<float, 3 * block> xyz;
        for (std::size_t done = 0; done < pixels; done += block) {
            const std::size_t count = std::min(block, pixels - done);
            cmsDoTransform(transform_.get(), encoded + 3 * done, xyz.data(),
                           static_cast<cmsUInt32Number>(count));
            for (std::size_t i = 0; i < count; ++i) {
                const Vector3 rgb =
                    from_xyz_ * Vector3{static_cast<double>(xyz[3 * i]), static_cast<double>(xyz[3 * i + 1]),
                                        static_cast<double>(xyz[3 * i + 2])};
                for (std::size_t c = 0; c < 3; ++c) linear[3 * (done + i) + c] = static_cast<float>(rgb[c]);
            }
        }
    }

  private:
    std::shared_ptr<LcmsInstance> instance_;  // must outlive the transform
    std::unique_ptr<void, FreeTransform> transform_;
    std::vector<std::uint8_t> profile_;
    Matrix3 from_xyz_;
};

std::string described(cmsHPROFILE profile) {
    std::array<char, 128> text{};
    cmsGetProfileInfoASCII(profile, cmsInfoDescription, "en", "US", text.data(),
                           static_cast<cmsUInt32Number>(text.size()));
    return fmt::format("embedded ICC profile '{}'", one_line(text.data(), 80));
}

std::string four_letters(std::uint32_t signature) {
    std::string letters;
    for (int shift = 24; shift >= 0; shift -= 8) letters += static_cast<char>((signature >> shift) & 0xff);
    return one_line(letters);
}

/// A word of the header (ICC.1:2022, 7.2). Little CMS hands these out as enumerations, which cannot hold
/// every word that a damaged file has.
std::uint32_t header_word(std::span<const std::uint8_t> profile, std::size_t at) {
    std::uint32_t word = 0;
    for (const std::uint8_t byte : profile.subspan(at, 4)) word = word << 8 | byte;
    return word;
}

void require_usable_class(std::uint32_t profile_class, const std::string& name) {
    switch (profile_class) {
        case cmsSigInputClass:
        case cmsSigDisplayClass:
        case cmsSigOutputClass:
        case cmsSigColorSpaceClass:
            return;
        default:
            refuse(name,
                   fmt::format("has an ICC profile of class '{}', which does not describe a picture",
                               four_letters(profile_class)),
                   cure);
    }
}

bool has_table(cmsHPROFILE profile) {
    for (const cmsTagSignature tag : {cmsSigAToB0Tag, cmsSigAToB1Tag, cmsSigDToB1Tag})
        if (cmsIsTag(profile, tag)) return true;
    return false;
}

std::shared_ptr<const Decoding> table_decoding(std::shared_ptr<LcmsInstance> instance, cmsHPROFILE profile,
                                               std::span<const std::uint8_t> bytes, const std::string& name) {
    const LcmsProfile xyz(cmsCreateXYZProfileTHR(instance->context()));
    const cmsHTRANSFORM transform =
        xyz ? cmsCreateTransformTHR(instance->context(), profile, TYPE_RGB_FLT, xyz.get(), TYPE_XYZ_FLT,
                                    INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOCACHE | cmsFLAGS_NOOPTIMIZE)
            : nullptr;
    if (!transform) refuse(name, "has a damaged ICC profile (" + instance->error() + ")", cure);
    return std::make_shared<TableDecoding>(std::move(instance), transform, bytes);
}

std::function<double(double)> curve_of(cmsHPROFILE profile, cmsTagSignature tag, const std::string& name) {
    const auto* const curve = static_cast<const cmsToneCurve*>(cmsReadTag(profile, tag));
    auto function = curve ? curve_function(curve) : nullptr;
    if (!function) refuse(name, "has a damaged ICC profile (a tone curve is missing)", cure);
    return function;
}

Matrix3 colorants(cmsHPROFILE profile, const std::string& name) {
    Matrix3 matrix;
    std::size_t column = 0;
    for (const cmsTagSignature tag : {cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag}) {
        const auto* const xyz = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile, tag));
        if (!xyz) refuse(name, "has a damaged ICC profile (a colorant is missing)", cure);
        matrix.m[0][column] = xyz->X;
        matrix.m[1][column] = xyz->Y;
        matrix.m[2][column] = xyz->Z;
        ++column;
    }
    if (std::abs(determinant(matrix)) < 1e-6)
        refuse(name, "has an ICC profile whose colorants are in line", cure);
    return matrix;
}

/// A damaged formula may overflow or divide by nothing.
void require_finite_light(const Decoding& decoding, const std::string& name) {
    constexpr std::size_t codes = 256;
    std::array<float, 3 * codes> greys;
    for (std::size_t i = 0; i < greys.size(); ++i) greys[i] = static_cast<float>(i / 3) / (codes - 1);
    decoding.decode(greys.data(), greys.data(), codes);
    if (!std::all_of(greys.begin(), greys.end(), [](float light) { return std::isfinite(light); }))
        refuse(name, "has a damaged ICC profile (its curves lead to no number)", cure);
}

void read_rgb(std::shared_ptr<LcmsInstance> instance, cmsHPROFILE profile,
              std::span<const std::uint8_t> bytes, const std::string& name, ColourEncoding& encoding) {
    if (has_table(profile)) {
        encoding.decoding = table_decoding(std::move(instance), profile, bytes, name);
        encoding.to_xyz_d50 = rgb_to_xyz_d50(romm_rgb);
        return;
    }
    encoding.decoding = separable_decoding({curve_of(profile, cmsSigRedTRCTag, name),
                                            curve_of(profile, cmsSigGreenTRCTag, name),
                                            curve_of(profile, cmsSigBlueTRCTag, name)});
    encoding.to_xyz_d50 = colorants(profile, name);
}

void read_grey(cmsHPROFILE profile, const std::string& name, ColourEncoding& encoding) {
    const auto curve = curve_of(profile, cmsSigGrayTRCTag, name);
    encoding.decoding = separable_decoding({curve, curve, curve});
    encoding.to_xyz_d50 = rgb_to_xyz_d50(srgb);  // any space serves whose R = G = B is the D50 white
}

}  // namespace

ColourEncoding icc_encoding(std::span<const std::uint8_t> bytes, StoredChannels channels,
                            const std::string& name) {
    const auto instance = std::make_shared<LcmsInstance>();
    const LcmsProfile profile = instance->open(bytes);
    if (!profile) refuse(name, "has a damaged ICC profile (" + instance->error() + ")", cure);
    constexpr std::size_t class_at = 12, space_at = 16;
    require_usable_class(header_word(bytes, class_at), name);

    ColourEncoding encoding;
    encoding.description = described(profile.get());
    const std::uint32_t space = header_word(bytes, space_at);
    if (space == cmsSigRgbData)
        read_rgb(instance, profile.get(), bytes, name, encoding);
    else if (space == cmsSigGrayData && channels == StoredChannels::one)
        read_grey(profile.get(), name, encoding);
    else
        refuse(name, fmt::format("has an ICC profile for '{}' and not for RGB", four_letters(space)), cure);
    require_finite_light(*encoding.decoding, name);
    return encoding;
}

ColourEncoding read_icc_profile(const std::filesystem::path& path) {
    const FileBytes file = read_file_bytes(path);
    const std::span bytes(reinterpret_cast<const std::uint8_t*>(file.data.get()), file.size);
    const std::string name = one_line(path.string(), 400);
    constexpr std::size_t header = 128, signature_at = 36, class_at = 12;
    constexpr std::uint32_t signature = 0x61637370;  // 'acsp'
    constexpr const char* other = "give the input profile of a camera or scanner";
    if (bytes.size() < header || header_word(bytes, signature_at) != signature)
        refuse(name, "is no ICC profile", other);
    ColourEncoding encoding = icc_encoding(bytes, StoredChannels::three, name);
    const std::uint32_t profile_class = header_word(bytes, class_at);
    if (profile_class == cmsSigOutputClass) refuse(name, "is the profile of a printer", other);
    if (profile_class == cmsSigDisplayClass && !encoding.decoding->separable())
        refuse(name, "is a display's lookup table", other);
    encoding.description.replace(0, encoding.description.find("ICC"), "");
    return encoding;
}

}  // namespace tonemend
