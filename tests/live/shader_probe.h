#pragma once

#include <array>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "live/gl_framebuffer.h"
#include "live/gl_program.h"
#include "live/gl_shader_text.h"
#include "live/gl_texture.h"

namespace tonemend::testing {

using Texel = std::array<float, 4>;

/// Runs GLSL functions on a list of inputs: `body` computes `vec4 result` from `vec4 x` (texel i of the first
/// input) and `vec4 y` (of the second, zeros when there is none). `prepare` sets uniforms and textures from
/// unit 2 on.
inline std::vector<Texel> probe(const std::vector<std::string_view>& files, const std::string& body,
                                const std::vector<Texel>& x, const std::vector<Texel>& y = {},
                                const std::function<void(const GlProgram&)>& prepare = {},
                                const std::string& definitions = "") {
    constexpr int width = 1024;
    const int height = static_cast<int>((x.size() + width - 1) / width);
    const auto padded = [&](std::vector<Texel> texels) {
        texels.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
        return texels;
    };
    const std::string source =
        join_shaders(definitions, files) +
        "uniform sampler2D inputs_x, inputs_y; uniform int rows; out vec4 result;\n"
        "void main() { ivec2 at = ivec2(gl_FragCoord.x, rows - 1 - int(gl_FragCoord.y));\n"
        "vec4 x = texelFetch(inputs_x, at, 0), y = texelFetch(inputs_y, at, 0);\n" +
        body + "\n}\n";
    const GlProgram program(join_shaders({"full_screen.vert"}), source);
    const FullScreenTriangle triangle;
    const GlFramebuffer target(TexelKind::rgba32f, width, height);
    GlTexture texture_x, texture_y;
    texture_x.upload(TexelKind::rgba32f, width, height, padded(x).data());
    texture_y.upload(TexelKind::rgba32f, width, height, padded(y).data());
    program.use();
    program.set("inputs_x", 0);
    program.set("inputs_y", 1);
    program.set("rows", height);
    if (prepare) prepare(program);
    texture_x.bind(0);
    texture_y.bind(1);
    target.bind();
    triangle.draw();
    const std::vector<float> values = target.read();
    std::vector<Texel> results(x.size());
    for (std::size_t i = 0; i < results.size(); ++i)
        for (std::size_t c = 0; c < 4; ++c) results[i][c] = values[4 * i + c];
    return results;
}

}  // namespace tonemend::testing
