#include "picture/tiff_directory.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

namespace tonemend {
namespace {

constexpr std::uint64_t classic = 42, entry_bytes = 12;
/// More entries, or more directories, are no camera's: readers stop there, and so does this.
constexpr std::uint64_t most_entries = 512;
constexpr std::size_t most_directories = 64;
constexpr std::uint64_t tag_sub_directories = 330, tag_exif = 34665;
/// Bytes of one value of types 0 (none) … 13.
constexpr std::array<std::uint64_t, 14> type_bytes{0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4};

/// Unsigned numbers at a place, in the structure's byte order; 0 beyond its end.
class Numbers {
  public:
    explicit Numbers(std::span<const std::byte> bytes)
        : bytes_(bytes), big_endian_(!bytes.empty() && bytes[0] == std::byte{'M'}) {}
    std::uint64_t at(std::uint64_t place, std::uint64_t count) const {
        if (place + count > bytes_.size()) return 0;
        std::uint64_t value = 0;
        for (std::uint64_t i = 0; i < count; ++i)
            value = value << 8 |
                    std::to_integer<std::uint64_t>(bytes_[place + (big_endian_ ? i : count - 1 - i)]);
        return value;
    }
    std::uint64_t size() const { return bytes_.size(); }

  private:
    std::span<const std::byte> bytes_;
    bool big_endian_;
};

/// Adds to `waiting` the directories that this one names; false when it or a value reaches beyond the end.
bool is_whole(const Numbers& numbers, std::uint64_t directory, std::vector<std::uint64_t>& waiting) {
    const std::uint64_t entries = numbers.at(directory, 2);
    if (entries > most_entries) return true;
    const std::uint64_t end = directory + 2 + entries * entry_bytes;
    if (end > numbers.size()) return false;
    for (std::uint64_t entry = directory + 2; entry < end; entry += entry_bytes) {
        const std::uint64_t tag = numbers.at(entry, 2);
        const std::uint64_t type = numbers.at(entry + 2, 2);
        const std::uint64_t count = numbers.at(entry + 4, 4);
        const std::uint64_t value = numbers.at(entry + 8, 4);
        const std::uint64_t size = count * (type < type_bytes.size() ? type_bytes[type] : 0);
        if (size > 4 && value + size > numbers.size()) return false;
        if (tag == tag_exif) waiting.push_back(value);
        if (tag != tag_sub_directories) continue;
        for (std::uint64_t i = 0; i < std::min<std::uint64_t>(count, most_directories); ++i)
            waiting.push_back(size > 4 ? numbers.at(value + 4 * i, 4) : value);
    }
    waiting.push_back(numbers.at(end, 4));
    return true;
}

}  // namespace

bool directories_are_whole(std::span<const std::byte> bytes) {
    const Numbers numbers(bytes);
    if (bytes.size() < 8 || numbers.at(2, 2) != classic) return true;
    std::vector<std::uint64_t> waiting{numbers.at(4, 4)};
    std::vector<std::uint64_t> seen;
    if (waiting[0] == 0 || waiting[0] + 2 > numbers.size()) return false;
    while (!waiting.empty() && seen.size() < most_directories) {
        const std::uint64_t directory = waiting.back();
        waiting.pop_back();
        if (directory == 0 || directory + 2 > numbers.size()) continue;
        if (std::find(seen.begin(), seen.end(), directory) != seen.end()) continue;
        seen.push_back(directory);
        if (!is_whole(numbers, directory, waiting)) return false;
    }
    return true;
}

}  // namespace tonemend
