#pragma once

#include <epoxy/gl.h>

#include <vector>

#include "picture/frame.h"

namespace tonemend {

/// What a texel holds.
enum class TexelKind { rgb8, rgba8, rgb16, rgb32f, rgba32f, r32f };

/// A texture without filtering: the shaders fetch texels and interpolate themselves. Storage is kept while
/// size and kind stay, so that a stream of frames allocates nothing.
class GlTexture {
  public:
    GlTexture();
    ~GlTexture();
    GlTexture(const GlTexture&) = delete;
    GlTexture& operator=(const GlTexture&) = delete;

    /// Rows from top to bottom without padding, straight from `texels`; row 0 is texel row 0.
    void upload(TexelKind kind, int width, int height, const void* texels);
    /// A cube of `side`³ RGB floats, x fastest. A texture is used for one or the other for its whole life.
    void upload_cube(int side, const float* rgb);
    /// The frame's own samples, without a copy on this side.
    void upload(const Frame& frame);
    void bind(int unit) const;

    GLuint id() const { return id_; }
    int width() const { return width_; }
    int height() const { return height_; }

  private:
    GLuint id_ = 0;
    GLenum target_ = GL_TEXTURE_2D;
    TexelKind kind_ = TexelKind::rgb8;
    int width_ = 0, height_ = 0;
};

/// Uploads a table of RGB triples as one row of texels of four floats: drivers fetch those fastest.
void upload_table(GlTexture& texture, const std::vector<float>& rgb);

}  // namespace tonemend
