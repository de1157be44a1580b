#include "live/coat.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ctime>
#include <iterator>
#include <optional>

namespace tonemend {
namespace {

std::optional<std::tm> local_time(const std::string& taken) {
    std::tm utc{};
    const char* end = strptime(taken.c_str(), "%Y-%m-%dT%H:%M:%SZ", &utc);
    if (end == nullptr) return std::nullopt;
    const std::time_t moment = timegm(&utc);
    std::tm local{};
    localtime_r(&moment, &local);
    return local;
}

}  // namespace

Coat to_coat(const KeptReading& reading) {
    Coat coat;
    coat.number = reading.number;
    coat.taken = reading.taken;
    coat.original = reading.original;
    coat.repair = reading.repair;
    coat.de2000 = reading.de2000;
    coat.u95 = reading.u95;
    coat.verdict = reading.verdict;
    coat.unfit = reading.unfit;
    coat.light = reading.light;
    return coat;
}

std::vector<Coat> list_coats(const ReadingStore& store) {
    const std::vector<KeptReading> readings = store.list();
    std::vector<Coat> coats;
    std::transform(readings.begin(), readings.end(), std::back_inserter(coats), to_coat);
    return coats;
}

std::string short_time(const std::string& taken, const std::string& now) {
    static constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const auto then = local_time(taken), today = local_time(now);
    if (!then || !today) return "";
    if (then->tm_year == today->tm_year && then->tm_yday == today->tm_yday)
        return fmt::format("{:02d}:{:02d}", then->tm_hour, then->tm_min);
    const std::string day =
        fmt::format("{} {}", then->tm_mday, months[static_cast<std::size_t>(then->tm_mon)]);
    return then->tm_year == today->tm_year ? day : fmt::format("{} {}", day, 1900 + then->tm_year);
}

}  // namespace tonemend
