#pragma once

#include <epoxy/gl.h>

#include <cstdint>
#include <vector>

#include "live/gl_texture.h"

namespace tonemend {

/// Where to draw when nothing is to be seen: a target of its own, read back when wanted.
class GlFramebuffer {
  public:
    /// `kind` is rgba32f for numbers, rgba8 for what a screen would get. Throws std::runtime_error when the
    /// driver cannot draw into it.
    GlFramebuffer(TexelKind kind, int width, int height);
    ~GlFramebuffer();
    GlFramebuffer(const GlFramebuffer&) = delete;
    GlFramebuffer& operator=(const GlFramebuffer&) = delete;

    /// Draws go here from now on, over the whole of it; nothing encodes what shaders write
    /// (GL_FRAMEBUFFER_SRGB off), blends or tests it.
    void bind() const;
    /// What was drawn; row 0 is the lowest.
    const GlTexture& texture() const { return texture_; }
    /// height × width × 4, top row first.
    std::vector<float> read() const;
    /// height × width × 3, top row first.
    std::vector<std::uint8_t> read8() const;

  private:
    GlTexture texture_;
    GLuint id_ = 0;
    int width_, height_;
};

}  // namespace tonemend
