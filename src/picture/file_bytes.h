#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <span>

namespace tonemend {

/// The bytes of one file.
struct FileBytes {
    std::unique_ptr<std::byte[]> data;
    std::size_t size = 0;

    std::span<const std::byte> span() const { return {data.get(), size}; }
};

/// Reads a whole file. Throws InputError: missing, a folder, not readable, empty, over 4 GiB.
FileBytes read_file_bytes(const std::filesystem::path& path);

}  // namespace tonemend
