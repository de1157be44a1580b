#include "record/drying_log.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cmath>
#include <nlohmann/json.hpp>
#include <string_view>
#include <system_error>

#include "calibrate/keep/json_part.h"
#include "picture/file_bytes.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/json_numbers.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* drying_schema = "tonemend.drying/1";

[[noreturn]] void refuse(const std::filesystem::path& path, const std::string& what) {
    throw InputError(fmt::format("{}: {}", one_line(path.string(), 400), what));
}

std::array<double, 9> values_of(const Matrix3& matrix) {
    std::array<double, 9> values{};
    for (std::size_t i = 0; i < 9; ++i) values[i] = matrix.m[i / 3][i % 3];
    return values;
}

Json head_json(const DryingLogHead& head) {
    return {{"schema", drying_schema},
            {"region", head.region},
            {"kind", wait_of(head.kind).name},
            {"label_minutes", head.label_minutes ? Json(*head.label_minutes) : Json(nullptr)},
            {"source", head.source},
            {"card_to_picture", values_of(head.card_to_picture)}};
}

DryingLogHead to_head(const JsonPart& json) {
    if (json.at("schema").raw_text() != drying_schema)
        json.at("schema").refuse(fmt::format("is not {}", drying_schema));
    DryingLogHead head;
    head.region = json.at("region").text();
    const std::string kind = json.at("kind").text(60);
    const auto known = find_drying_kind(kind);
    if (!known) json.at("kind").refuse("is no kind of colourant");
    head.kind = *known;
    if (const auto minutes = json.find("label_minutes")) head.label_minutes = minutes->number(0.1, 1e5);
    head.source = json.at("source").text();
    const auto values = json.at("card_to_picture").numbers<9>(-1e9, 1e9);
    for (std::size_t i = 0; i < 9; ++i) head.card_to_picture.m[i / 3][i % 3] = values[i];
    return head;
}

DryingLogEntry to_entry(const JsonPart& json) {
    DryingLogEntry entry;
    entry.reading.seconds = json.at("seconds").number(0, 1e12);
    const auto lab = json.at("lab").numbers<3>(-200, 200);
    entry.reading.lab = {lab[0], lab[1], lab[2]};
    entry.reading.u95 = json.at("lab_u95").numbers<3>(0, 200);
    if (const auto picture = json.find("picture")) entry.picture = picture->text();
    return entry;
}

// The log in `text`, which names itself `path` in messages.
DryingLog to_log(const std::filesystem::path& path, std::string_view text) {
    DryingLog log;
    int number = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at);
        if (end == std::string_view::npos) break;
        ++number;
        try {
            const Json json = Json::parse(text.substr(at, end - at));
            if (number == 1)
                log.head = to_head(JsonPart(json));
            else
                log.entries.push_back(to_entry(JsonPart(json)));
        } catch (const std::exception& error) {
            refuse(path, fmt::format("line {} is no line of a drying log ({}); give the file that 'tonemend "
                                     "drying --log' wrote, or another name to begin a new one",
                                     number, one_line(error.what(), 120)));
        }
        at = log.whole_bytes = end + 1;
    }
    if (number == 0)
        refuse(path,
               "is no drying log; give the file that 'tonemend drying --log' wrote, or another name to begin "
               "a new one");
    return log;
}

}  // namespace

DryingWatch DryingLog::replay() const {
    DryingWatch watch(head.kind, head.label_minutes);
    for (const DryingLogEntry& entry : entries) watch.add(entry.reading);
    return watch;
}

DryingLog read_drying_log(const std::filesystem::path& path) {
    const FileBytes bytes = read_file_bytes(path);
    return to_log(path, {reinterpret_cast<const char*>(bytes.data.get()), bytes.size});
}

DryingLogWriter::DryingLogWriter(const std::filesystem::path& path)
    : path_(path), file_(open(path.c_str(), O_RDWR | O_APPEND | O_CREAT | O_CLOEXEC, 0666)) {
    if (file_ < 0)
        refuse(path, fmt::format("cannot be written ({}); choose a folder that is there and is yours",
                                 std::generic_category().message(errno)));
    try {
        if (flock(file_, LOCK_EX | LOCK_NB) != 0)
            refuse(path, "another 'tonemend drying' writes to it; end that one or give another --log");
        if (lseek(file_, 0, SEEK_END) == 0) return;
        found_ = read_drying_log(path);
        if (ftruncate(file_, static_cast<off_t>(found_->whole_bytes)) != 0)
            refuse(path, "cannot be written; check that the file is yours");
    } catch (...) {
        close(file_);
        throw;
    }
}

DryingLogWriter::~DryingLogWriter() {
    // A log in which nothing came to stand is not left behind.
    if (lseek(file_, 0, SEEK_END) == 0) unlink(path_.c_str());
    close(file_);
}

void DryingLogWriter::write_line(const std::string& line) {
    const std::string whole = line + "\n";
    if (write(file_, whole.data(), whole.size()) != static_cast<ssize_t>(whole.size()) || fsync(file_) != 0)
        refuse(path_, fmt::format("cannot be written ({}); check the free space where it lies",
                                  std::generic_category().message(errno)));
}

void DryingLogWriter::begin(const DryingLogHead& head) {
    write_line(head_json(head).dump(-1, ' ', false, Json::error_handler_t::replace));
}

void DryingLogWriter::append(const DryingLogEntry& entry, const DryingReport& report) {
    const Lab& lab = entry.reading.lab;
    const auto& u95 = entry.reading.u95;
    Json json{{"time", utc_text(entry.reading.seconds)},
              {"seconds", std::round(entry.reading.seconds * 1e3) / 1e3},
              {"lab", lab_json(lab)},
              {"lab_u95", numbers_json(u95)},
              {"state", name(report.state)},
              {"minutes", rounded(report.fit.minutes.middle)},
              {"remaining_de2000", rounded(report.fit.remaining.middle)}};
    if (!entry.picture.empty()) json["picture"] = entry.picture;
    write_line(json.dump(-1, ' ', false, Json::error_handler_t::replace));
}

}  // namespace tonemend
