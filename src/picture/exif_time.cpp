#include "picture/exif_time.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <ctime>

namespace tonemend {
namespace {

// The whole number of exactly `count` digits at `at`.
std::optional<int> digits(const std::string& text, std::size_t at, std::size_t count) {
    if (at + count > text.size()) return std::nullopt;
    int value = 0;
    const char* const begin = text.data() + at;
    const auto [end, error] = std::from_chars(begin, begin + count, value);
    if (error != std::errc{} || end != begin + count || value < 0) return std::nullopt;
    return value;
}

// Seconds that local time is ahead of UTC.
std::optional<int> offset_seconds(const std::string& text) {
    if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') return std::nullopt;
    const auto hours = digits(text, 1, 2), minutes = digits(text, 4, 2);
    if (!hours || !minutes || *hours > 15 || *minutes > 59) return std::nullopt;
    return (text[0] == '-' ? -60 : 60) * (60 * *hours + *minutes);
}

double part_of_second(const std::string& text) {
    const auto value = digits(text, 0, std::min<std::size_t>(text.size(), 6));
    return value ? *value / std::pow(10.0, static_cast<double>(std::min<std::size_t>(text.size(), 6))) : 0;
}

}  // namespace

std::optional<double> exif_seconds(const std::string& date_time, const std::string& offset,
                                   const std::string& fraction) {
    constexpr std::array<std::size_t, 6> begins{0, 5, 8, 11, 14, 17}, lengths{4, 2, 2, 2, 2, 2};
    std::array<int, 6> parts{};
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const auto part = digits(date_time, begins[i], lengths[i]);
        if (!part) return std::nullopt;
        parts[i] = *part;
    }
    constexpr std::array<int, 6> least{1990, 1, 1, 0, 0, 0}, most{9999, 12, 31, 23, 59, 60};
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (parts[i] < least[i] || parts[i] > most[i]) return std::nullopt;
    std::tm when{};
    when.tm_year = parts[0] - 1900, when.tm_mon = parts[1] - 1, when.tm_mday = parts[2];
    when.tm_hour = parts[3], when.tm_min = parts[4], when.tm_sec = parts[5];
    when.tm_isdst = -1;
    const auto ahead = offset_seconds(offset);
    const std::time_t seconds = ahead ? timegm(&when) - *ahead : std::mktime(&when);
    return static_cast<double>(seconds) + part_of_second(fraction);
}

}  // namespace tonemend
