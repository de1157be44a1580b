#include "picture/small_letters.h"

namespace tonemend {

std::string in_small_letters(std::string text) {
    for (char& letter : text)
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    return text;
}

std::string file_ending(const std::filesystem::path& path) {
    return in_small_letters(path.extension().string());
}

}  // namespace tonemend
