#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace tonemend {

/// `text` as it can stand in an element or between double quotes of an attribute: & < > " ' become
/// references; what is no UTF-8, or no character that HTML allows (controls, noncharacters), becomes U+FFFD.
std::string html_text(std::string_view text);

/// Well-formed UTF-8 of `text` in the same way, with nothing escaped.
std::string clean_utf8(std::string_view text);

/// "data:KIND;base64,…" (RFC 2397, RFC 4648).
std::string data_uri(const std::string& kind, std::span<const std::byte> bytes);

}  // namespace tonemend
