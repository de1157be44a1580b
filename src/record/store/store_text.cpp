#include "record/store/store_text.h"

#include <fmt/format.h>
#include <glib.h>

#include <memory>

#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr std::size_t longest_words = 197, longest_note = 10000;

struct FreeGlib {
    void operator()(char* text) const { g_free(text); }
};
using GlibText = std::unique_ptr<char, FreeGlib>;

// No zero byte, which PostgreSQL keeps in no text.
std::string valid_utf8(std::string_view text) {
    std::string plain(text);
    std::erase(plain, '\0');
    const GlibText valid(g_utf8_make_valid(plain.data(), static_cast<gssize>(plain.size())));
    return valid.get();
}

}  // namespace

std::string kept_words(std::string_view text) {
    return valid_utf8(one_line(valid_utf8(text), longest_words));
}

std::string kept_note(std::string_view text) {
    std::string note = valid_utf8(text.substr(0, longest_note));
    while (!note.empty() && (note.back() == '\n' || note.back() == ' ')) note.pop_back();
    return note;
}

std::string folded(std::string_view text) {
    const std::string valid = valid_utf8(text);
    const GlibText small(g_utf8_casefold(valid.data(), static_cast<gssize>(valid.size())));
    const GlibText composed(g_utf8_normalize(small.get(), -1, G_NORMALIZE_ALL_COMPOSE));
    return composed ? composed.get() : "";
}

std::string pattern_for(const std::string& words) {
    std::string pattern = "%";
    for (const char c : folded(words)) {
        if (c == '%' || c == '_' || c == '\\') pattern += '\\';
        pattern += c;
    }
    return pattern + "%";
}

std::string quoted_name(std::string_view name) {
    return fmt::format("'{}'", one_line(name, 60));
}

}  // namespace tonemend
