#include "live/coat.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <ctime>
#include <fstream>
#include <nlohmann/json.hpp>
#include <optional>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

int leading_number(const std::string& name) {
    int number = 0;
    const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), number);
    const bool ours =
        error == std::errc{} && end - name.data() >= 4 && end < name.data() + name.size() && *end == '-';
    return ours ? number : 0;
}

Lab to_lab(const json& value) {
    return {value.at(0).get<double>(), value.at(1).get<double>(), value.at(2).get<double>()};
}

std::optional<Coat> read_coat(const fs::path& file, int number) {
    try {
        std::ifstream stream(file);
        const json object = json::parse(stream);
        if (object.at("schema") != "tonemend.comparison/1") return std::nullopt;
        Coat coat;
        coat.number = number;
        coat.taken = object.value("taken", "");
        coat.original = to_lab(object.at("original").at("lab"));
        coat.repair = to_lab(object.at("repair").at("lab"));
        coat.de2000 = object.at("difference").at("de2000").get<double>();
        coat.u95 = object.at("difference").at("de2000_u95").get<double>();
        coat.verdict = judge(coat.de2000, coat.u95, object.at("tolerance").get<double>());
        coat.file = file;
        return coat;
    } catch (const json::exception&) {
        return std::nullopt;
    }
}

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

std::vector<Coat> list_coats(const fs::path& job) {
    std::vector<Coat> coats;
    std::error_code failure;
    for (fs::directory_iterator entry(job, failure), end; !failure && entry != end;
         entry.increment(failure)) {
        const fs::path& file = entry->path();
        const int number = leading_number(file.filename().string());
        if (number == 0 || file.extension() != ".json") continue;
        if (const auto coat = read_coat(file, number)) coats.push_back(*coat);
    }
    std::sort(coats.begin(), coats.end(), [](const Coat& a, const Coat& b) { return a.number < b.number; });
    return coats;
}

void mark_undone(const fs::path& file) {
    std::error_code failure;
    fs::rename(file, fs::path(file).concat(".undone"), failure);
    if (failure)
        throw InputError(fmt::format("{}: cannot be marked as undone ({}); check the folder's permissions",
                                     one_line(file.string(), 200), failure.message()));
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

std::string utc_now() {
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::time(nullptr)));
}

}  // namespace tonemend
