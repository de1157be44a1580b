#include "record/job_folder.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <span>

#include "picture/encoding_profile.h"
#include "picture/input_error.h"
#include "picture/read_picture.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"
#include "record/comparison_json.h"
#include "record/kept_reading_json.h"
#include "record/reading_number.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

std::string shown(const fs::path& path) {
    return one_line(path.string(), 400);
}

void make_folder(const fs::path& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error || !fs::is_directory(folder, error))
        throw InputError(
            fmt::format("{}: cannot be a job folder; choose one that you may write to", shown(folder)));
}

// A file's name has 255 bytes on most file systems; number, ending and a temporary file's suffix want some.
std::string shortened(std::string stem) {
    constexpr std::size_t longest = 200;
    if (stem.size() <= longest) return stem;
    std::size_t cut = longest;
    // Not through the middle of a UTF-8 sequence.
    while (cut > 0 && (static_cast<unsigned char>(stem[cut]) & 0xc0) == 0x80) --cut;
    stem.resize(cut);
    return stem;
}

std::string text_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// The files of a reading in the making: gone again with their owner unless it says done().
class UnfinishedFiles {
  public:
    ~UnfinishedFiles() {
        std::error_code ignored;
        for (const fs::path& file : files_) fs::remove(file, ignored);
    }
    UnfinishedFiles() = default;
    UnfinishedFiles(const UnfinishedFiles&) = delete;
    UnfinishedFiles& operator=(const UnfinishedFiles&) = delete;

    const fs::path& add(const fs::path& file) { return files_.emplace_back(file); }
    void done() { files_.clear(); }

  private:
    std::vector<fs::path> files_;
};

// PNG cannot hold floating-point samples, and libpng leaves out a profile that it finds fault with, which
// those with a lookup table may be: whoever wrote it wrote it.
const char* ending_for(const Frame& frame) {
    const bool png = frame.type != SampleType::float32 && frame.encoding.decoding->separable();
    return png ? ".frame.png" : ".frame.tif";
}

void write_frame(const Frame& frame, const fs::path& path) {
    WriteOptions options;
    options.icc_profile = encoding_profile(frame.encoding);
    write_picture(frame, path, options);
}

}  // namespace

KeptReading JobFolder::keep(const ReadingToKeep& reading) {
    make_folder(folder_);
    const ReadingNumber number(folder_);
    const std::string stem =
        fmt::format("{:04d}-{}", number.value(), shortened(fs::path(reading.picture).stem().string()));
    UnfinishedFiles files;
    std::string frame_file;
    if (reading.source) {
        frame_file = stem + ending_for(*reading.source->frame);
        write_frame(*reading.source->frame, files.add(folder_ / frame_file));
    }
    write_whole_file(files.add(folder_ / (stem + ".png")), reading.annotated);
    const std::string text = to_text(reading_json(reading, frame_file));
    const fs::path path = folder_ / (stem + ".json");
    write_whole_file(path, std::as_bytes(std::span(text)));
    files.done();

    const Comparison& comparison = reading.comparison;
    return {number.value(),
            reading.taken,
            reading.picture,
            comparison.original.lab,
            comparison.repair.lab,
            comparison.difference.de2000,
            comparison.difference.de2000_u95,
            comparison.tolerance,
            comparison.verdict,
            comparison.unfit(),
            reading.source.has_value(),
            path.string(),
            reading.light};
}

std::vector<KeptReading> JobFolder::list() const {
    std::vector<KeptReading> readings;
    std::error_code failure;
    for (fs::directory_iterator entry(folder_, failure), end; !failure && entry != end;
         entry.increment(failure)) {
        const fs::path& file = entry->path();
        const int number = reading_number(file);
        if (number == 0 || file.extension() != ".json") continue;
        if (auto reading = kept_reading(text_of(file))) {
            reading->number = number;
            reading->place = file.string();
            readings.push_back(std::move(*reading));
        }
    }
    std::sort(readings.begin(), readings.end(), [](const KeptReading& a, const KeptReading& b) {
        return a.number != b.number ? a.number < b.number : a.place < b.place;
    });
    return readings;
}

fs::path JobFolder::file_of(int number) const {
    for (const KeptReading& reading : list())
        if (reading.number == number) return reading.place;
    throw InputError(fmt::format("{}: holds no reading {}; was it moved, or is it undone already?",
                                 shown(folder_), number));
}

void JobFolder::undo(int number) {
    const fs::path file = file_of(number), undone = fs::path(file).concat(".undone");
    std::error_code failure;
    if (fs::exists(undone, failure))
        throw InputError(fmt::format("{}: is there already; move it away first", shown(undone)));
    fs::rename(file, undone, failure);
    if (failure)
        throw InputError(fmt::format("{}: cannot be marked as undone ({}); check the folder's permissions",
                                     shown(file), failure.message()));
}

ReopenedReading JobFolder::reopen(int number) const {
    const fs::path path = file_of(number);
    const std::string text = text_of(path);
    auto reading = kept_reading(text);
    std::string picture;
    try {
        picture = source_file(text);
    } catch (const InputError& error) {
        throw InputError(fmt::format("{}: {}", shown(path), error.what()));
    }
    Frame frame = read_picture(folder_ / picture);  // names its own file
    try {
        ReopenedReading reopened{reading.value_or(KeptReading{}), to_source(text, std::move(frame))};
        reopened.reading.number = number;
        reopened.reading.place = path.string();
        return reopened;
    } catch (const InputError& error) {
        throw InputError(fmt::format("{}: {}", shown(path), error.what()));
    }
}

}  // namespace tonemend
