#include "live/gl_shader_text.h"

#include <algorithm>
#include <cassert>

namespace tonemend {

std::string join_shaders(const std::vector<std::string_view>& names) {
    return join_shaders("", names);
}

std::string join_shaders(const std::string& definitions, const std::vector<std::string_view>& names) {
    std::string joined = "#version 330 core\n" + definitions;
    for (std::string_view name : names) {
        const auto found =
            std::ranges::find_if(shader_texts(), [&](const ShaderText& file) { return file.name == name; });
        assert(found != shader_texts().end());
        // Line numbers in the compiler's messages are then those of the file.
        joined += "#line 1\n";
        joined += found->text;
    }
    return joined;
}

}  // namespace tonemend
