#include "record/store/job_types.h"

#include <fmt/format.h>

#include <array>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

using namespace std::string_view_literals;

constexpr std::array step_kinds{"sand"sv,  "bleach"sv, "dye"sv,   "seal"sv, "pigment"sv,
                                "glaze"sv, "toner"sv,  "clear"sv, "other"sv};
constexpr std::array reading_roles{"before"sv, "during"sv, "after"sv};
constexpr std::array comparison_kinds{"before-after"sv, "second-light"sv};

template <typename Kind, std::size_t count>
Kind find_word(const std::array<std::string_view, count>& words, const std::string& text,
               std::string_view what) {
    for (std::size_t i = 0; i < count; ++i)
        if (words[i] == text) return static_cast<Kind>(i);
    throw InputError(
        fmt::format("'{}' is no {}; choose one of {}", one_line(text, 40), what, fmt::join(words, ", ")));
}

}  // namespace

std::string_view name(StepKind kind) {
    return step_kinds.at(static_cast<std::size_t>(kind));
}
StepKind parse_step_kind(const std::string& text) {
    return find_word<StepKind>(step_kinds, text, "kind of step");
}
std::string_view name(ReadingRole role) {
    return reading_roles.at(static_cast<std::size_t>(role));
}
ReadingRole parse_reading_role(const std::string& text) {
    return find_word<ReadingRole>(reading_roles, text, "role of a reading");
}
std::string_view name(ComparisonKind kind) {
    return comparison_kinds.at(static_cast<std::size_t>(kind));
}
ComparisonKind parse_comparison_kind(const std::string& text) {
    return find_word<ComparisonKind>(comparison_kinds, text, "kind of comparison");
}

}  // namespace tonemend
