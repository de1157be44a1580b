#include "record/report/report_words.h"

#include <fmt/format.h>

#include <cmath>

#include "record/number_text.h"

namespace tonemend {
namespace {

bool begins_with_unit(std::string_view text) {
    for (const std::string_view unit : {"±", "ml", "fl oz", "UTC", "min", "h", "d", "%"}) {
        if (!text.starts_with(unit)) continue;
        const std::string_view rest = text.substr(unit.size());
        return rest.empty() || std::string_view(" ,.;:)\n").find(rest.front()) != std::string_view::npos;
    }
    return false;
}

}  // namespace

std::string when_text(const std::string& time) {
    if (time.empty()) return not_recorded;
    if (time.size() != 20 || time[10] != 'T' || time[19] != 'Z') return time;
    return fmt::format("{} {} UTC", time.substr(0, 10), time.substr(11, 5));
}

std::string wait_text(double minutes) {
    // More than a century is no wait that anybody wrote down.
    if (!(minutes > 0) || minutes > 6e7) return {};
    constexpr long an_hour = 60, a_day = 24 * an_hour;
    const long whole = std::lround(minutes);
    if (whole < 2 * an_hour) return fmt::format("{} min", std::max(1L, whole));
    const bool days = whole >= 2 * a_day;
    const long large = whole / (days ? a_day : an_hour);
    const long rest = days ? std::lround(static_cast<double>(whole % a_day) / an_hour) : whole % an_hour;
    if (days && rest == 24) return fmt::format("{} d", large + 1);
    const char* const names[2] = {days ? "d" : "h", days ? "h" : "min"};
    return rest == 0 ? fmt::format("{} {}", large, names[0])
                     : fmt::format("{} {} {} {}", large, names[0], rest, names[1]);
}

std::string numbers_text(const std::vector<int>& numbers) {
    std::string text;
    for (std::size_t i = 0; i < numbers.size();) {
        std::size_t last = i;
        while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) ++last;
        text += fmt::format("{}{}", text.empty() ? "" : ", ", numbers[i]);
        if (last > i) text += fmt::format("{}{}", last > i + 1 ? "–" : ", ", numbers[last]);
        i = last + 1;
    }
    return text;
}

std::string value_text(double value, std::optional<double> u95) {
    const std::string number = number_text(value, Sign::only_minus);
    return u95 ? fmt::format("{} {}", number, interval_text(*u95)) : number;
}

std::string change_text(double value, std::optional<double> u95) {
    const std::string number = number_text(value, Sign::always);
    return u95 ? fmt::format("{} {}", number, interval_text(*u95)) : number;
}

std::string lab_text(const Lab& lab) {
    return fmt::format("{}, {}, {}", number_text(lab.L, Sign::only_minus),
                       number_text(lab.a, Sign::only_minus), number_text(lab.b, Sign::only_minus));
}

std::string short_hash(const std::string& hash) {
    return hash.empty() ? not_recorded : hash.substr(0, 12);
}

std::vector<std::size_t> unbroken_blanks(std::string_view text) {
    std::vector<std::size_t> places;
    for (std::size_t at = text.find(' '); at != std::string_view::npos; at = text.find(' ', at + 1)) {
        const std::string_view before = text.substr(0, at), behind = text.substr(at + 1);
        const bool number = !before.empty() && before.back() >= '0' && before.back() <= '9';
        const bool digit_behind = !behind.empty() && behind.front() >= '0' && behind.front() <= '9';
        if ((number && begins_with_unit(behind)) || (before.ends_with("±") && digit_behind) ||
            (before.ends_with(" fl") && behind.starts_with("oz")))
            places.push_back(at);
    }
    return places;
}

std::string step_words(StepKind kind) {
    switch (kind) {
        case StepKind::sand:
            return "Sand";
        case StepKind::bleach:
            return "Bleach";
        case StepKind::dye:
            return "Dye stain";
        case StepKind::seal:
            return "Seal";
        case StepKind::pigment:
            return "Pigment stain";
        case StepKind::glaze:
            return "Glaze";
        case StepKind::toner:
            return "Toner";
        case StepKind::clear:
            return "Clear finish";
        case StepKind::other:
            break;
    }
    return "Other";
}

}  // namespace tonemend
