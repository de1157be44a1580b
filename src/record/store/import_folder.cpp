#include "record/store/import_folder.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>

#include "picture/file_bytes.h"
#include "picture/read_picture.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"
#include "record/kept_reading_json.h"
#include "record/store/area_readings.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

// "0012-seat.json" and "0012-seat.json.undone"; four to six digits.
bool is_reading_file(const fs::path& file) {
    const std::string name = file.filename().string();
    const std::size_t dash = name.find('-');
    return dash != std::string::npos && dash >= 4 && dash <= 6 &&
           name.find_first_not_of("0123456789") == dash &&
           (name.ends_with(".json") || name.ends_with(".json.undone"));
}

int number_of(const fs::path& reading) {
    return std::stoi(reading.filename().string());
}

std::vector<fs::path> reading_files(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code failure;
    for (fs::directory_iterator entry(folder, failure), end; !failure && entry != end;
         entry.increment(failure))
        if (is_reading_file(entry->path())) files.push_back(entry->path());
    // By number, which may have four to six digits.
    std::sort(files.begin(), files.end(), [](const fs::path& a, const fs::path& b) {
        const int first = number_of(a), second = number_of(b);
        return first != second ? first < second : a < b;
    });
    return files;
}

PictureToKeep picture_file(const fs::path& path) {
    const FileBytes file = read_file_bytes(path);
    const Frame frame = read_picture(file.span(), one_line(path.string(), 400));
    const std::string ending = file_ending(path);
    return {{file.span().begin(), file.span().end()},
            ending.empty() ? "picture" : ending.substr(1),
            frame.width,
            frame.height};
}

// The light that was stated, in the picture's part of the text or, without a picture, in one of its own.
std::string stated_light(const nlohmann::ordered_json& json) {
    for (const char* pointer : {"/frame/stated/light", "/stated/light"}) {
        const nlohmann::ordered_json::json_pointer at(pointer);
        if (json.contains(at) && json.at(at).is_string()) return json.at(at).get<std::string>();
    }
    return {};
}

// A picture that cannot be had costs the picture and not the reading.
template <typename Read>
std::optional<PictureToKeep> picture_or_loss(Read read, std::vector<std::string>& losses) {
    try {
        return read();
    } catch (const InputError& error) {
        losses.push_back(fmt::format("{}; its reading came without that picture", error.what()));
        return std::nullopt;
    }
}

ReadingForStore read_files(const fs::path& path, const std::string& area, std::vector<std::string>& losses) {
    const FileBytes file = read_file_bytes(path);
    const std::string text(reinterpret_cast<const char*>(file.data.get()), file.size);
    const auto listed = kept_reading(text);
    if (!listed)
        throw InputError(fmt::format("{}: is no reading, or is damaged", one_line(path.string(), 400)));
    ReadingForStore reading;
    ReadingRecord& record = reading.record;
    record.area = area;
    record.taken = listed->taken, record.picture = listed->picture;
    record.original = listed->original, record.repair = listed->repair;
    record.de2000 = listed->de2000, record.u95 = listed->u95, record.tolerance = listed->tolerance;
    record.unfit = listed->unfit;
    record.software = "tonemend 0.1 (folder)";
    const auto json = nlohmann::ordered_json::parse(text);
    reading.text = json.dump();
    record.light = stated_light(json);
    const std::string name = path.filename().string();
    const fs::path folder = path.parent_path(),
                   annotated = folder / (name.substr(0, name.rfind(".json")) + ".png");
    std::error_code failure;
    if (fs::exists(annotated, failure))
        reading.annotated = picture_or_loss([&] { return picture_file(annotated); }, losses);
    if (listed->has_source)
        reading.source = picture_or_loss(
            [&] {
                try {
                    return picture_file(folder / source_file(text));
                } catch (const InputError& error) {
                    throw InputError(fmt::format("{}: {}", name, error.what()));
                }
            },
            losses);
    return reading;
}

}  // namespace

FolderImport import_folder(JobStore& store, const fs::path& folder) {
    const std::vector<fs::path> files = reading_files(folder);
    if (files.empty())
        throw InputError(
            fmt::format("{}: holds no readings; check the name", one_line(folder.string(), 400)));
    FolderImport outcome;
    const fs::path clean = fs::absolute(folder / "").lexically_normal().parent_path();
    outcome.job = store.start_job({.name = clean.filename().string(), .note = "from " + clean.string()});
    const Piece piece = store.add_piece({.job = outcome.job.uid, .name = "Piece 1"});
    const Area area = store.add_area({.piece = piece.uid, .name = "Repair"});
    for (const fs::path& file : files) {
        try {
            const ReadingRecord kept = store.add_reading(read_files(file, area.uid, outcome.losses));
            if (file.extension() == ".undone") store.undo_reading(outcome.job.uid, kept.number);
            ++outcome.readings;
        } catch (const InputError& error) {
            outcome.losses.push_back(fmt::format("{}: {}", file.filename().string(), error.what()));
        }
    }
    return outcome;
}

}  // namespace tonemend
