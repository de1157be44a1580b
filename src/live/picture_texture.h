#pragma once

#include <imgui.h>

#include <cstddef>
#include <cstdint>

namespace tonemend {

/// A picture on the graphics card: encoded sRGB, 8 bits, sampled linearly and from smaller copies when shown
/// small. Belongs to the thread of the GL context.
class PictureTexture {
  public:
    PictureTexture() = default;
    ~PictureTexture();
    PictureTexture(const PictureTexture&) = delete;
    PictureTexture& operator=(const PictureTexture&) = delete;

    /// Uploads width × height × 3 bytes; the texture's storage is kept while the size stays.
    void upload(int width, int height, const std::uint8_t* rgb);
    bool empty() const { return width_ == 0; }
    int width() const { return width_; }
    int height() const { return height_; }
    unsigned name() const { return name_; }  ///< of the GL texture
    ImTextureID id() const;

  private:
    unsigned name_ = 0;
    int width_ = 0, height_ = 0;
};

}  // namespace tonemend
