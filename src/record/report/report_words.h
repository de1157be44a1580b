#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/lab.h"
#include "record/store/job_types.h"

namespace tonemend {

/// What stands in the place of what nobody wrote down.
inline constexpr const char* not_recorded = "not recorded";
/// What stands in a cell of a table of which there is nothing to say.
inline constexpr const char* nothing_there = "–";

/// "2026-11-25 12:00 UTC" of "2026-11-25T12:00:00Z"; a text of another shape as it is; not_recorded when it
/// is empty.
std::string when_text(const std::string& time);
/// "45 min", "2 h 30 min", "3 d 4 h" (from two days on); empty for 0.
std::string wait_text(double minutes);
/// "1–3, 5" of 1, 2, 3, 5, which rise.
std::string numbers_text(const std::vector<int>& numbers);
/// "52.1 ± 0.3", the ± left out when it is not known.
std::string value_text(double value, std::optional<double> u95);
/// The same with a sign: "−3.2 ± 0.4".
std::string change_text(double value, std::optional<double> u95);
/// "52.1, 14.0, 27.3": L*, a* and b*.
std::string lab_text(const Lab& lab);
/// The first 12 digits of a SHA-256; not_recorded when it is empty.
std::string short_hash(const std::string& hash);
/// The blanks at which no line may be broken, by their places in `text`: between a number and its unit, its ±
/// or the UTC of a time.
std::vector<std::size_t> unbroken_blanks(std::string_view text);
/// What is done in such a step: "Sand", "Dye stain", …
std::string step_words(StepKind kind);

}  // namespace tonemend
