#include "live/picture_texture.h"

#include <epoxy/gl.h>

#include <type_traits>

namespace tonemend {
namespace {

// ImGui's handle is a pointer in some versions and an integer in others.
template <typename Id>
Id to_texture_id(unsigned name) {
    if constexpr (std::is_pointer_v<Id>) {
        return reinterpret_cast<Id>(static_cast<std::uintptr_t>(name));
    } else {
        return static_cast<Id>(name);
    }
}

}  // namespace

PictureTexture::~PictureTexture() {
    if (name_ != 0) glDeleteTextures(1, &name_);
}

void PictureTexture::upload(int width, int height, const std::uint8_t* rgb) {
    if (name_ == 0) glGenTextures(1, &name_);
    glBindTexture(GL_TEXTURE_2D, name_);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glPixelStorei(GL_UNPACK_ROW_LENGTH, 0);
    if (width != width_ || height != height_) {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_RGB8, width, height, 0, GL_RGB, GL_UNSIGNED_BYTE, rgb);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_LINEAR);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
        width_ = width, height_ = height;
    } else {
        glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, rgb);
    }
    glGenerateMipmap(GL_TEXTURE_2D);
    glBindTexture(GL_TEXTURE_2D, 0);
}

ImTextureID PictureTexture::id() const {
    return to_texture_id<ImTextureID>(name_);
}

}  // namespace tonemend
