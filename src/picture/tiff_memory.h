#pragma once

#include <tiffio.h>

#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace tonemend {

/// libtiff on bytes in memory, its messages kept instead of printed.
class TiffMemory {
  public:
    /// For reading `bytes`, which must outlive this.
    explicit TiffMemory(std::span<const std::byte> bytes);
    /// For writing a new file.
    TiffMemory();
    ~TiffMemory();
    TiffMemory(const TiffMemory&) = delete;
    TiffMemory& operator=(const TiffMemory&) = delete;

    /// Null when the bytes are no TIFF.
    TIFF* get() const { return tiff_; }
    /// The first error that libtiff reported, as one line; empty if none.
    std::string error() const;
    /// Closes the file being written and gives its bytes.
    std::vector<std::byte> finish();

  private:
    void open(const char* mode);
    static tmsize_t read(thandle_t self, void* data, tmsize_t size);
    static tmsize_t write(thandle_t self, void* data, tmsize_t size);
    static toff_t seek(thandle_t self, toff_t offset, int whence);
    static int close(thandle_t self);
    static toff_t size(thandle_t self);
    static int map(thandle_t self, void** base, toff_t* size);
    static void unmap(thandle_t self, void* base, toff_t size);
    static int on_error(TIFF* tiff, void* self, const char* module, const char* format, va_list arguments);
    static int on_warning(TIFF* tiff, void* self, const char* module, const char* format, va_list arguments);

    std::span<const std::byte> input_;
    std::vector<std::byte> output_;
    bool writing_ = false;
    std::size_t position_ = 0;
    std::string error_;
    TIFF* tiff_ = nullptr;
};

}  // namespace tonemend
