#include "live/desk/text_field.h"

namespace tonemend {

void TextField::type(char32_t point) {
    if (point < 0x20 || point == 0x7f || point > 0x10ffff || (point >= 0xd800 && point < 0xe000)) return;
    std::string code;
    // UTF-8 (RFC 3629, 3).
    const auto rest = [&](int shift) { code += static_cast<char>(0x80 | ((point >> shift) & 0x3f)); };
    if (point < 0x80) {
        code += static_cast<char>(point);
    } else if (point < 0x800) {
        code += static_cast<char>(0xc0 | (point >> 6));
        rest(0);
    } else if (point < 0x10000) {
        code += static_cast<char>(0xe0 | (point >> 12));
        rest(6), rest(0);
    } else {
        code += static_cast<char>(0xf0 | (point >> 18));
        rest(12), rest(6), rest(0);
    }
    if (text_.size() + code.size() <= 200) text_ += code;
}

void TextField::take_back() {
    while (!text_.empty() && (static_cast<unsigned char>(text_.back()) & 0xc0) == 0x80) text_.pop_back();
    if (!text_.empty()) text_.pop_back();
}

}  // namespace tonemend
