#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace tonemend {

using SqlBytes = std::vector<std::byte>;
/// A value in a database: nothing (NULL), a whole number, a number, UTF-8 text, or bytes.
using SqlValue = std::variant<std::monostate, std::int64_t, double, std::string, SqlBytes>;
using SqlRow = std::vector<SqlValue>;

/// The text; "" for nothing. Throws InputError for anything else, as only a damaged or foreign store has it.
const std::string& text_in(const SqlValue& value);
/// The whole number; 0 for nothing. Throws likewise.
std::int64_t whole_in(const SqlValue& value);
/// The number, whole or not; 0 for nothing. Throws likewise.
double number_in(const SqlValue& value);
/// A text, or nothing when it is empty: what refers to another record.
SqlValue text_or_nothing(std::string text);

}  // namespace tonemend
