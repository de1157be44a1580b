#pragma once

#include <string>

#include <fmt/format.h>

#include "tests/support/scratch_folder.h"

namespace tonemend::testing {

/// A CGATS text with `columns` (parted by spaces) and one line a row.
inline std::string cgats_text(const std::string& columns, const std::string& rows) {
    const auto count_words = [](const std::string& text) {
        int words = 0;
        for (std::size_t i = 0; i < text.size(); ++i)
            words += text[i] != ' ' && (i == 0 || text[i - 1] == ' ');
        return words;
    };
    int lines = 0;
    for (const char letter : rows) lines += letter == '\n';
    return fmt::format(
        "CGATS.17\nORIGINATOR \"test\"\nNUMBER_OF_FIELDS "
        "{}\nBEGIN_DATA_FORMAT\n{}\nEND_DATA_FORMAT\nNUMBER_OF_SETS "
        "{}\nBEGIN_DATA\n{}END_DATA\n",
        count_words(columns), columns, lines, rows);
}

/// What `action` throws as InputError; empty when it does not.
template <typename Error, typename Action>
std::string error_of(Action&& action) {
    try {
        action();
    } catch (const Error& error) {
        return error.what();
    }
    return {};
}

}  // namespace tonemend::testing
