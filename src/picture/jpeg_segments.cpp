#include "picture/jpeg_segments.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>
#include <string_view>

#include "picture/still.h"

namespace tonemend {
namespace {

using Payload = std::span<const std::byte>;

constexpr std::string_view icc_label{"ICC_PROFILE\0", 12};
constexpr std::string_view exif_label{"Exif\0\0", 6};
constexpr int start_of_image = 0xd8, start_of_scan = 0xda, end_of_image = 0xd9, quantisation = 0xdb;
constexpr int app1 = 0xe1, app2 = 0xe2;

/// ITU-T T.81, table K.1, in zigzag order.
constexpr std::array<int, 64> luminance_table{
    16, 11,  12, 14, 12, 10, 16,  14,  13,  14, 18, 17,  16,  19,  24,  40,  26, 24,  22,  22, 24, 49,
    35, 37,  29, 40, 58, 51, 61,  60,  57,  51, 56, 55,  64,  72,  92,  78,  64, 68,  87,  69, 55, 56,
    80, 109, 81, 87, 95, 98, 103, 104, 103, 62, 77, 113, 121, 112, 100, 120, 92, 101, 103, 99};

int byte_at(Payload bytes, std::size_t at) {
    return std::to_integer<int>(bytes[at]);
}

bool starts_with(Payload payload, std::string_view label) {
    return payload.size() >= label.size() &&
           std::equal(label.begin(), label.end(), payload.begin(),
                      [](char c, std::byte b) { return static_cast<std::byte>(c) == b; });
}

std::vector<std::uint8_t> copy_of(Payload payload) {
    const auto* const first = reinterpret_cast<const std::uint8_t*>(payload.data());
    return {first, first + payload.size()};
}

int scaled(int base, int quality) {
    const int percent = quality < 50 ? 5000 / quality : 200 - 2 * quality;
    return std::clamp((base * percent + 50) / 100, 1, 255);
}

int nearest_quality(const std::array<int, 64>& table) {
    int best = 1;
    int least = -1;
    for (int quality = 1; quality <= 100; ++quality) {
        int distance = 0;
        for (std::size_t i = 0; i < 64; ++i)
            distance += std::abs(table[i] - scaled(luminance_table[i], quality));
        if (least >= 0 && distance >= least) continue;
        least = distance;
        best = quality;
    }
    return best;
}

/// A DQT segment holds tables one after the other; number 0 is luminance by convention.
std::optional<int> quality_of(Payload tables) {
    while (!tables.empty()) {
        const int head = byte_at(tables, 0);
        const std::size_t entry_bytes = (head >> 4) != 0 ? 2 : 1;
        if (tables.size() < 1 + 64 * entry_bytes) return std::nullopt;
        if ((head & 0xf) == 0) {
            std::array<int, 64> table{};
            for (std::size_t i = 0; i < 64; ++i)
                table[i] = entry_bytes == 1 ? byte_at(tables, 1 + i)
                                            : byte_at(tables, 1 + 2 * i) * 256 + byte_at(tables, 2 + 2 * i);
            return nearest_quality(table);
        }
        tables = tables.subspan(1 + 64 * entry_bytes);
    }
    return std::nullopt;
}

/// The numbered parts of one profile.
class ProfileParts {
  public:
    void add(Payload payload) {
        if (payload.size() < 2) return;
        expected_ = byte_at(payload, 1);
        parts_[byte_at(payload, 0)] = payload.subspan(2);
    }
    std::vector<std::uint8_t> joined(const std::string& name) const {
        if (parts_.empty()) return {};
        if (parts_.begin()->first != 1 || parts_.rbegin()->first != expected_ ||
            parts_.size() != static_cast<std::size_t>(expected_))
            refuse(name, "has an embedded ICC profile of which parts are missing",
                   "save the picture again from the program that made it");
        std::vector<std::uint8_t> profile;
        for (const auto& [number, part] : parts_) {
            const auto bytes = copy_of(part);
            profile.insert(profile.end(), bytes.begin(), bytes.end());
        }
        return profile;
    }

  private:
    std::map<int, Payload> parts_;
    int expected_ = 0;
};

}  // namespace

JpegSegments read_jpeg_segments(std::span<const std::byte> bytes, const std::string& name) {
    JpegSegments found;
    ProfileParts profile;
    std::size_t at = 2;
    while (at + 4 <= bytes.size()) {
        if (byte_at(bytes, at) != 0xff) break;
        const int marker = byte_at(bytes, at + 1);
        if (marker == 0xff) {  // fill byte
            ++at;
            continue;
        }
        if (marker == start_of_scan || marker == end_of_image || marker == start_of_image) break;
        const auto length = static_cast<std::size_t>(byte_at(bytes, at + 2) * 256 + byte_at(bytes, at + 3));
        if (length < 2 || at + 2 + length > bytes.size()) break;
        const Payload payload = bytes.subspan(at + 4, length - 2);
        if (marker == app1 && found.exif.empty() && starts_with(payload, exif_label))
            found.exif = copy_of(payload.subspan(exif_label.size()));
        if (marker == app2 && starts_with(payload, icc_label)) profile.add(payload.subspan(icc_label.size()));
        if (marker == quantisation && !found.quality) found.quality = quality_of(payload);
        at += 2 + length;
    }
    found.icc = profile.joined(name);
    return found;
}

}  // namespace tonemend
