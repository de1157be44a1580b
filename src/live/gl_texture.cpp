#include "live/gl_texture.h"

namespace tonemend {
namespace {

struct Layout {
    GLint stored;
    GLenum channels;
    GLenum type;
};

Layout layout_of(TexelKind kind) {
    switch (kind) {
        case TexelKind::rgb8:
            return {GL_RGB8, GL_RGB, GL_UNSIGNED_BYTE};
        case TexelKind::rgba8:
            return {GL_RGBA8, GL_RGBA, GL_UNSIGNED_BYTE};
        case TexelKind::rgb16:
            return {GL_RGB16, GL_RGB, GL_UNSIGNED_SHORT};
        case TexelKind::rgb32f:
            return {GL_RGB32F, GL_RGB, GL_FLOAT};
        case TexelKind::rgba32f:
            return {GL_RGBA32F, GL_RGBA, GL_FLOAT};
        case TexelKind::r32f:
            break;
    }
    return {GL_R32F, GL_RED, GL_FLOAT};
}

void fetch_texels_only(GLenum target) {
    glTexParameteri(target, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
    glTexParameteri(target, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    glTexParameteri(target, GL_TEXTURE_MAX_LEVEL, 0);
}

/// Rows without padding, whatever another part of the program left set.
void read_tightly() {
    glBindBuffer(GL_PIXEL_UNPACK_BUFFER, 0);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glPixelStorei(GL_UNPACK_ROW_LENGTH, 0);
    glPixelStorei(GL_UNPACK_SKIP_ROWS, 0);
    glPixelStorei(GL_UNPACK_SKIP_PIXELS, 0);
}

/// Triples with a fourth number beside them.
std::vector<float> in_fours(const float* rgb, std::size_t triples) {
    std::vector<float> rgba(4 * triples, 1.0F);
    for (std::size_t i = 0; i < 3 * triples; ++i) rgba[i / 3 * 4 + i % 3] = rgb[i];
    return rgba;
}

}  // namespace

GlTexture::GlTexture() {
    glGenTextures(1, &id_);
}

GlTexture::~GlTexture() {
    glDeleteTextures(1, &id_);
}

void GlTexture::upload(TexelKind kind, int width, int height, const void* texels) {
    const Layout layout = layout_of(kind);
    glBindTexture(target_, id_);
    read_tightly();
    if (kind == kind_ && width == width_ && height == height_) {
        glTexSubImage2D(target_, 0, 0, 0, width, height, layout.channels, layout.type, texels);
        return;
    }
    fetch_texels_only(target_);
    glTexImage2D(target_, 0, layout.stored, width, height, 0, layout.channels, layout.type, texels);
    kind_ = kind, width_ = width, height_ = height;
}

void GlTexture::upload_cube(int side, const float* rgb) {
    target_ = GL_TEXTURE_3D;
    glBindTexture(target_, id_);
    read_tightly();
    fetch_texels_only(target_);
    const auto n = static_cast<std::size_t>(side);
    glTexImage3D(target_, 0, GL_RGBA32F, side, side, side, 0, GL_RGBA, GL_FLOAT,
                 in_fours(rgb, n * n * n).data());
    width_ = height_ = side;
}

void GlTexture::upload(const Frame& frame) {
    const TexelKind kind = frame.type == SampleType::uint8    ? TexelKind::rgb8
                           : frame.type == SampleType::uint16 ? TexelKind::rgb16
                                                              : TexelKind::rgb32f;
    upload(kind, frame.width, frame.height, frame.samples.data());
}

void upload_table(GlTexture& texture, const std::vector<float>& rgb) {
    texture.upload(TexelKind::rgba32f, static_cast<int>(rgb.size() / 3), 1,
                   in_fours(rgb.data(), rgb.size() / 3).data());
}

void GlTexture::bind(int unit) const {
    glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(unit));
    glBindTexture(target_, id_);
}

}  // namespace tonemend
