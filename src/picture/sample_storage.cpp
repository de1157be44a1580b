#include "picture/sample_storage.h"

#include <sys/mman.h>

#include <cstdint>

namespace tonemend {
namespace {

constexpr std::uintptr_t large_page = std::uintptr_t{2} << 20;

/// Only advice: a system without large pages says no, and nothing is lost.
void ask_for_large_pages(void* start, std::size_t bytes) {
    const std::size_t to_first =
        (large_page - reinterpret_cast<std::uintptr_t>(start) % large_page) % large_page;
    if (bytes < to_first) return;
    const std::size_t whole_pages = (bytes - to_first) / large_page * large_page;
    if (whole_pages > 0) madvise(static_cast<char*>(start) + to_first, whole_pages, MADV_HUGEPAGE);
}

}  // namespace

std::vector<std::byte> sample_storage(std::size_t bytes) {
    std::vector<std::byte> storage;
    storage.reserve(bytes);
    ask_for_large_pages(storage.data(), bytes);
    storage.resize(bytes);
    return storage;
}

}  // namespace tonemend
