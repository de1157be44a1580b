#include "record/report/html_text.h"

#include <cstdint>

namespace tonemend {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";

// The character at the beginning of `text` and how many bytes it takes; a length of 0: it is malformed.
struct CodePoint {
    std::uint32_t value = 0;
    std::size_t length = 0;
};

CodePoint first_of(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(text[i]); };
    const std::uint8_t lead = byte(0);
    if (lead < 0x80) return {lead, 1};
    const std::size_t length = lead >= 0xF0 && lead <= 0xF4  ? 4
                               : lead >= 0xE0 && lead < 0xF0 ? 3
                               : lead >= 0xC2 && lead < 0xE0 ? 2
                                                             : 0;
    if (length == 0 || text.size() < length) return {};
    std::uint32_t value = lead & (0x7FU >> length);
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return {};
        value = value << 6U | (byte(i) & 0x3FU);
    }
    // RFC 3629: the shortest form alone, and no surrogates.
    const std::uint32_t least = length == 4 ? 0x10000 : length == 3 ? 0x800 : 0x80;
    if (value < least || value > 0x10FFFF || (value >= 0xD800 && value < 0xE000)) return {};
    return {value, length};
}

// What an HTML text may not hold (HTML Living Standard, 13.2.3.5: controls and noncharacters).
bool is_forbidden(std::uint32_t c) {
    return (c < 0x20 && c != '\n' && c != '\t') || (c >= 0x7F && c < 0xA0) || (c & 0xFFFEU) == 0xFFFE ||
           (c >= 0xFDD0 && c <= 0xFDEF);
}

}  // namespace

std::string clean_utf8(std::string_view text) {
    std::string clean;
    clean.reserve(text.size());
    while (!text.empty()) {
        const CodePoint next = first_of(text);
        if (next.value == '\r' && next.length == 1) {
            clean += text.starts_with("\r\n") ? "" : "\n";
        } else if (next.length == 0 || is_forbidden(next.value)) {
            clean += replacement;
        } else {
            clean += text.substr(0, next.length);
        }
        text.remove_prefix(next.length == 0 ? 1 : next.length);
    }
    return clean;
}

std::string html_text(std::string_view text) {
    std::string escaped;
    for (const char c : clean_utf8(text)) {
        switch (c) {
            case '&':
                escaped += "&amp;";
                break;
            case '<':
                escaped += "&lt;";
                break;
            case '>':
                escaped += "&gt;";
                break;
            case '"':
                escaped += "&quot;";
                break;
            case '\'':
                escaped += "&#39;";
                break;
            default:
                escaped += c;
        }
    }
    return escaped;
}

std::string data_uri(const std::string& kind, std::span<const std::byte> bytes) {
    static constexpr std::string_view letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string uri = "data:" + kind + ";base64,";
    uri.reserve(uri.size() + (bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t here = bytes.size() - i < 3 ? bytes.size() - i : 3;
        std::uint32_t three = 0;
        for (std::size_t k = 0; k < 3; ++k)
            three = three << 8U | (k < here ? static_cast<std::uint32_t>(bytes[i + k]) : 0U);
        for (std::size_t k = 0; k < 4; ++k) uri += k <= here ? letters[three >> (18 - 6 * k) & 63U] : '=';
    }
    return uri;
}

}  // namespace tonemend
