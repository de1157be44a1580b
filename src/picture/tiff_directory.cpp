#include "picture/tiff_directory.h"

#include <array>
#include <cstdint>

namespace tonemend {
namespace {

constexpr std::size_t entry_bytes = 12;
/// Bytes of one value of types 0 (none) … 13.
constexpr std::array<std::uint64_t, 14> type_bytes{0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4};

/// Unsigned numbers at a place, in the structure's byte order; 0 beyond its end.
class Numbers {
  public:
    explicit Numbers(std::span<const std::byte> bytes)
        : bytes_(bytes), big_endian_(bytes.size() > 0 && bytes[0] == std::byte{'M'}) {}
    std::uint64_t at(std::uint64_t place, std::uint64_t count) const {
        if (place + count > bytes_.size()) return 0;
        std::uint64_t value = 0;
        for (std::uint64_t i = 0; i < count; ++i)
            value = value << 8 |
                    std::to_integer<std::uint64_t>(bytes_[place + (big_endian_ ? i : count - 1 - i)]);
        return value;
    }

  private:
    std::span<const std::byte> bytes_;
    bool big_endian_;
};

}  // namespace

bool first_directory_is_whole(std::span<const std::byte> bytes) {
    const Numbers numbers(bytes);
    constexpr std::uint64_t classic = 42;
    if (bytes.size() < 8 || numbers.at(2, 2) != classic) return true;
    const std::uint64_t directory = numbers.at(4, 4);
    const std::uint64_t entries = numbers.at(directory, 2);
    if (directory + 2 + entries * entry_bytes > bytes.size() || entries == 0) return false;
    for (std::uint64_t i = 0; i < entries; ++i) {
        const std::uint64_t entry = directory + 2 + i * entry_bytes;
        const std::uint64_t type = numbers.at(entry + 2, 2);
        const std::uint64_t size =
            numbers.at(entry + 4, 4) * (type < type_bytes.size() ? type_bytes[type] : 0);
        if (size > 4 && numbers.at(entry + 8, 4) + size > bytes.size()) return false;
    }
    return true;
}

}  // namespace tonemend
