#include "picture/sample_storage.h"

#include <sys/mman.h>

#include <cstdint>

namespace tonemend {
namespace {

constexpr std::uintptr_t large_page = std::uintptr_t{2} << 20;

/// Only advice: a system without large pages says no, and nothing is lost.
void ask_for_large_pages(void* start, std::size_t bytes) {
    const auto first = (reinterpret_cast<std::uintptr_t>(start) + large_page - 1) & ~(large_page - 1);
    const auto last = (reinterpret_cast<std::uintptr_t>(start) + bytes) & ~(large_page - 1);
    if (first < last) madvise(reinterpret_cast<void*>(first), last - first, MADV_HUGEPAGE);
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
