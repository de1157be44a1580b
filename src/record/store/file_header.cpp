#include "record/store/file_header.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <string_view>

namespace tonemend {
namespace {

struct FixedBytes {
    std::size_t at;
    std::string_view bytes;
};

using namespace std::string_view_literals;

constexpr int page_size = 4096;

constexpr std::array fixed_bytes{
    FixedBytes{0, "SQLite format 3\0"sv},         FixedBytes{16, "\x10\x00"sv},  // pages of 4096 bytes
    FixedBytes{18, "\x02\x02\x00\x40\x20\x20"sv},  // write-ahead log; nothing reserved; fractions 64, 32, 32
    FixedBytes{44, "\x00\x00\x00\x04"sv},          // schema format 4
    FixedBytes{52, "\x00\x00\x00\x00"sv},          // no automatic vacuum
    FixedBytes{56, "\x00\x00\x00\x01"sv},          // UTF-8
    FixedBytes{64, "\x00\x00\x00\x00"sv},          // no incremental vacuum
};

}  // namespace

bool mend_file_header(const std::filesystem::path& file) {
    std::fstream stream(file, std::ios::binary | std::ios::in | std::ios::out);
    std::array<char, 100> header{};
    if (!stream.read(header.data(), header.size())) return false;
    const std::array<char, 100> found = header;
    for (const FixedBytes& part : fixed_bytes)
        std::memcpy(header.data() + part.at, part.bytes.data(), part.bytes.size());
    // The number of pages, big-endian: less than the file was when its end is cut off.
    stream.seekg(0, std::ios::end);
    const auto pages = static_cast<std::uint32_t>(stream.tellg() / page_size);
    for (std::size_t i = 0; i < 4; ++i) header[28 + i] = static_cast<char>(pages >> (24 - 8 * i) & 0xff);
    if (header == found) return false;
    // Free pages are of no use to a reader, and their list may lie in what is gone.
    std::fill_n(header.begin() + 32, 8, '\0');
    stream.seekp(0);
    stream.write(header.data(), header.size());
    return true;
}

}  // namespace tonemend
