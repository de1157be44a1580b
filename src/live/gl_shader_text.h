#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tonemend {

/// One file of shaders/.
struct ShaderText {
    std::string_view name;
    std::string_view text;
};

/// Every file of shaders/, built into the program.
const std::vector<ShaderText>& shader_texts();
/// The version line and the named files one after another. GLSL has no includes: a file's functions need the
/// files named before it. Asserts that the files exist.
std::string join_shaders(const std::vector<std::string_view>& names);
/// The same with #define lines in front.
std::string join_shaders(const std::string& definitions, const std::vector<std::string_view>& names);

}  // namespace tonemend
