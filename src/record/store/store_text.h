#pragma once

#include <string>
#include <string_view>

namespace tonemend {

/// A name or a few words as the store keeps them: one line of UTF-8, at most 200 bytes ("…" at its end when
/// it was longer).
std::string kept_words(std::string_view text);
/// A note likewise, its lines as they are, at most 10,000 bytes.
std::string kept_note(std::string_view text);
/// What names are searched by: without regard to case, and to how accented letters are composed (Unicode NFKC
/// and case folding).
std::string folded(std::string_view text);
/// A pattern for LIKE … ESCAPE '\' that finds `words` anywhere.
std::string pattern_for(const std::string& words);

/// A name within a sentence: in quotation marks, one line, at most 60 bytes.
std::string quoted_name(std::string_view name);

}  // namespace tonemend
