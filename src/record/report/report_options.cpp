#include "record/report/report_options.h"

#include <fmt/format.h>

#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr double points_a_mm = 72 / 25.4;

}  // namespace

PaperSize parse_paper_size(const std::string& text) {
    const std::string name = in_small_letters(text);
    if (name == "a4") return PaperSize::a4;
    if (name == "a5") return PaperSize::a5;
    if (name == "letter") return PaperSize::letter;
    if (name == "legal") return PaperSize::legal;
    throw InputError(fmt::format("'{}' is no paper size; give a4, a5, letter or legal", one_line(text, 40)));
}

// ISO 216 for A4 and A5; Letter 8.5 by 11 inches and Legal 8.5 by 14 (ANSI/ASME Y14.1 has the first; of the
// second: common practice, no source).
PaperSides sides_of(PaperSize paper) {
    switch (paper) {
        case PaperSize::a5:
            return {148 * points_a_mm, 210 * points_a_mm, "A5"};
        case PaperSize::letter:
            return {8.5 * 72, 11.0 * 72, "letter"};
        case PaperSize::legal:
            return {8.5 * 72, 14.0 * 72, "legal"};
        case PaperSize::a4:
            break;
    }
    return {210 * points_a_mm, 297 * points_a_mm, "A4"};
}

}  // namespace tonemend
