#include "record/store/sql_value.h"

#include "picture/input_error.h"

namespace tonemend {
namespace {

[[noreturn]] void refuse_kind() {
    throw InputError(
        "a record in the store holds what it cannot hold; 'tonemend job verify' says more, 'tonemend job "
        "rescue' "
        "saves what is whole");
}

}  // namespace

const std::string& text_in(const SqlValue& value) {
    static const std::string none;
    if (std::holds_alternative<std::monostate>(value)) return none;
    if (const auto* text = std::get_if<std::string>(&value)) return *text;
    refuse_kind();
}

std::int64_t whole_in(const SqlValue& value) {
    if (std::holds_alternative<std::monostate>(value)) return 0;
    if (const auto* whole = std::get_if<std::int64_t>(&value)) return *whole;
    refuse_kind();
}

double number_in(const SqlValue& value) {
    if (std::holds_alternative<std::monostate>(value)) return 0;
    if (const auto* number = std::get_if<double>(&value)) return *number;
    if (const auto* whole = std::get_if<std::int64_t>(&value)) return static_cast<double>(*whole);
    refuse_kind();
}

SqlValue text_or_nothing(std::string text) {
    if (text.empty()) return std::monostate{};
    return text;
}

}  // namespace tonemend
