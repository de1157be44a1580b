#include "picture/text_line.h"

namespace tonemend {

std::string one_line(std::string_view text, std::size_t longest) {
    std::string line;
    for (const char character : text) {
        const auto code = static_cast<unsigned char>(character);
        const bool blank = code <= 0x20 || code == 0x7f;
        if (blank && (line.empty() || line.back() == ' ')) continue;
        line += blank ? ' ' : character;
    }
    while (!line.empty() && line.back() == ' ') line.pop_back();
    if (line.size() > longest) {
        std::size_t cut = longest;
        // Not through the middle of a UTF-8 sequence.
        while (cut > 0 && (static_cast<unsigned char>(line[cut]) & 0xc0) == 0x80) --cut;
        line.resize(cut);
        line += "…";
    }
    return line;
}

std::string in_capitals(std::string_view text) {
    std::string result(text);
    for (char& letter : result)
        if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
    return result;
}

}  // namespace tonemend
