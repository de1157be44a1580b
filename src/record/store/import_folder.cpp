#include "record/store/import_folder.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

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

std::vector<fs::path> reading_files(const fs::path& folder) {
    std::vector<fs::path> files;
    std::error_code failure;
    for (fs::directory_iterator entry(folder, failure), end; !failure && entry != end;
         entry.increment(failure))
        if (is_reading_file(entry->path())) files.push_back(entry->path());
    std::sort(files.begin(), files.end());
    return files;
}

PictureToKeep picture_file(const fs::path& path) {
    const FileBytes file = read_file_bytes(path);
    const Frame frame = read_picture(file.span(), one_line(path.string(), 400));
    return {{file.span().begin(), file.span().end()}, file_ending(path).substr(1), frame.width, frame.height};
}

ReadingForStore read_files(const fs::path& path, const std::string& area) {
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
    for (const char* part : {"stated", "frame"}) {
        const auto& stated = std::string_view(part) == "frame"
                                 ? json.value("frame", nlohmann::ordered_json::object())
                                       .value("stated", nlohmann::ordered_json::object())
                                 : json.value("stated", nlohmann::ordered_json::object());
        if (stated.is_object() && stated.contains("light") && stated["light"].is_string())
            record.light = stated["light"].get<std::string>();
    }
    const std::string name = path.filename().string();
    const fs::path annotated = path.parent_path() / (name.substr(0, name.find(".json")) + ".png");
    if (fs::exists(annotated)) reading.annotated = picture_file(annotated);
    if (listed->has_source) reading.source = picture_file(path.parent_path() / source_file(text));
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
            const ReadingRecord kept = store.add_reading(read_files(file, area.uid));
            if (file.extension() == ".undone") store.undo_reading(outcome.job.uid, kept.number);
            ++outcome.readings;
        } catch (const InputError& error) {
            outcome.losses.push_back(fmt::format("{}: {}", file.filename().string(), error.what()));
        }
    }
    return outcome;
}

}  // namespace tonemend
