#include "live/gl_framebuffer.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace tonemend {
namespace {

template <typename Value>
void turn_upright(std::vector<Value>& values, std::size_t row, std::size_t height) {
    for (std::size_t y = 0; y < height / 2; ++y)
        std::swap_ranges(values.begin() + static_cast<std::ptrdiff_t>(y * row),
                         values.begin() + static_cast<std::ptrdiff_t>((y + 1) * row),
                         values.begin() + static_cast<std::ptrdiff_t>((height - 1 - y) * row));
}

}  // namespace

GlFramebuffer::GlFramebuffer(TexelKind kind, int width, int height) : width_(width), height_(height) {
    texture_.upload(kind, width, height, nullptr);
    glGenFramebuffers(1, &id_);
    glBindFramebuffer(GL_FRAMEBUFFER, id_);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture_.id(), 0);
    if (glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE) {
        glDeleteFramebuffers(1, &id_);
        throw std::runtime_error("this OpenGL driver cannot draw off screen");
    }
}

GlFramebuffer::~GlFramebuffer() {
    glDeleteFramebuffers(1, &id_);
}

void GlFramebuffer::bind() const {
    glBindFramebuffer(GL_FRAMEBUFFER, id_);
    glViewport(0, 0, width_, height_);
    constexpr std::array<GLenum, 5> off{GL_FRAMEBUFFER_SRGB, GL_BLEND, GL_DEPTH_TEST, GL_SCISSOR_TEST,
                                        GL_DITHER};
    for (const GLenum feature : off) glDisable(feature);
}

std::vector<float> GlFramebuffer::read() const {
    const auto row = 4 * static_cast<std::size_t>(width_);
    std::vector<float> values(row * static_cast<std::size_t>(height_));
    glBindFramebuffer(GL_READ_FRAMEBUFFER, id_);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, width_, height_, GL_RGBA, GL_FLOAT, values.data());
    turn_upright(values, row, static_cast<std::size_t>(height_));
    return values;
}

std::vector<std::uint8_t> GlFramebuffer::read8() const {
    const auto row = 3 * static_cast<std::size_t>(width_);
    std::vector<std::uint8_t> values(row * static_cast<std::size_t>(height_));
    glBindFramebuffer(GL_READ_FRAMEBUFFER, id_);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, width_, height_, GL_RGB, GL_UNSIGNED_BYTE, values.data());
    turn_upright(values, row, static_cast<std::size_t>(height_));
    return values;
}

}  // namespace tonemend
