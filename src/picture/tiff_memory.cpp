#include "picture/tiff_memory.h"

#include <algorithm>
#include <cstdio>
#include <cstring>
#include <new>

#include "picture/text_line.h"

namespace tonemend {
namespace {

// No seek goes further than this, so that a damaged offset cannot ask for all memory.
constexpr std::size_t largest_output = std::size_t{4} << 30;

TiffMemory& memory(thandle_t self) {
    return *static_cast<TiffMemory*>(self);
}

}  // namespace

TiffMemory::TiffMemory(std::span<const std::byte> bytes) : input_(bytes) {
    open("r");
}

TiffMemory::TiffMemory() : writing_(true) {
    open("w");
}

TiffMemory::~TiffMemory() {
    if (tiff_) TIFFClose(tiff_);
}

void TiffMemory::open(const char* mode) {
    TIFFOpenOptions* const options = TIFFOpenOptionsAlloc();
    if (!options) throw std::bad_alloc();
    TIFFOpenOptionsSetErrorHandlerExtR(options, on_error, this);
    TIFFOpenOptionsSetWarningHandlerExtR(options, on_warning, this);
    tiff_ = TIFFClientOpenExt("picture", mode, this, read, write, seek, close, size, map, unmap, options);
    TIFFOpenOptionsFree(options);
}

std::string TiffMemory::error() const {
    return one_line(error_);
}

std::vector<std::byte> TiffMemory::finish() {
    TIFFClose(tiff_);
    tiff_ = nullptr;
    return std::move(output_);
}

tmsize_t TiffMemory::read(thandle_t self, void* data, tmsize_t size) {
    auto& m = memory(self);
    const std::span<const std::byte> bytes = m.writing_ ? std::span<const std::byte>(m.output_) : m.input_;
    if (size < 0 || m.position_ >= bytes.size()) return 0;
    const std::size_t count = std::min(static_cast<std::size_t>(size), bytes.size() - m.position_);
    std::memcpy(data, bytes.data() + m.position_, count);
    m.position_ += count;
    return static_cast<tmsize_t>(count);
}

tmsize_t TiffMemory::write(thandle_t self, void* data, tmsize_t size) {
    auto& m = memory(self);
    if (!m.writing_ || size < 0 || m.position_ > largest_output) return 0;
    const std::size_t count = static_cast<std::size_t>(size);
    if (m.output_.size() < m.position_ + count) m.output_.resize(m.position_ + count);
    std::memcpy(m.output_.data() + m.position_, data, count);
    m.position_ += count;
    return size;
}

toff_t TiffMemory::seek(thandle_t self, toff_t offset, int whence) {
    auto& m = memory(self);
    if (whence == SEEK_CUR) offset += m.position_;
    if (whence == SEEK_END) offset += m.writing_ ? m.output_.size() : m.input_.size();
    m.position_ = offset;
    return offset;
}

int TiffMemory::close(thandle_t) {
    return 0;
}

toff_t TiffMemory::size(thandle_t self) {
    const auto& m = memory(self);
    return m.writing_ ? m.output_.size() : m.input_.size();
}

int TiffMemory::map(thandle_t self, void** base, toff_t* size) {
    const auto& m = memory(self);
    if (m.writing_) return 0;
    // libtiff reads from the mapping only.
    *base = const_cast<std::byte*>(m.input_.data());
    *size = m.input_.size();
    return 1;
}

void TiffMemory::unmap(thandle_t, void*, toff_t) {}

int TiffMemory::on_error(TIFF*, void* self, const char* module, const char* format, va_list arguments) {
    auto& m = memory(self);
    if (!m.error_.empty()) return 1;
    char text[256];
    std::vsnprintf(text, sizeof text, format, arguments);
    m.error_ = (module ? std::string(module) + ": " : std::string()) + text;
    return 1;
}

int TiffMemory::on_warning(TIFF*, void*, const char*, const char*, va_list) {
    return 1;
}

}  // namespace tonemend
