#include "camera/folder_source.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "camera/poll_until.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"

namespace tonemend {

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

// Containers of stills, then the raw formats of cameras as their makers name them (LibRaw's list).
constexpr std::array<std::string_view, 33> still_extensions{
    ".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".dng", ".3fr", ".arw", ".cr2", ".cr3",
    ".crw", ".dcr",  ".erf", ".fff", ".iiq",  ".kdc",  ".mef", ".mos", ".mrw", ".nef", ".nrw",
    ".orf", ".pef",  ".raf", ".raw", ".rw2",  ".rwl",  ".sr2", ".srf", ".srw", ".x3f", ".cap"};

}  // namespace

bool has_still_name(const fs::path& path) {
    if (path.filename().string().starts_with('.')) return false;
    const std::string extension = file_ending(path);
    return std::find(still_extensions.begin(), still_extensions.end(), extension) != still_extensions.end();
}

void FolderSource::find_newest() {
    std::error_code failed;
    const auto time = fs::last_write_time(folder_, failed);
    if (failed || !fs::is_directory(folder_, failed)) {
        newest_.reset();  // back again, its newest picture is news
        throw InputError(folder_.string() + ": no such folder; create it or choose another source");
    }
    if (newest_ && time == folder_time_ && Clock::now() - listed_ < std::chrono::seconds(1)) return;
    folder_time_ = time;
    listed_ = Clock::now();
    std::optional<std::pair<fs::file_time_type, fs::path>> best;
    for (fs::directory_iterator at(folder_, failed), end; !failed && at != end; at.increment(failed)) {
        const fs::directory_entry& entry = *at;
        std::error_code gone;
        if (!has_still_name(entry.path()) || !entry.is_regular_file(gone)) continue;
        const auto written = entry.last_write_time(gone);
        if (gone) continue;
        if (!best || std::pair(written, entry.path()) > *best) best = {written, entry.path()};
    }
    if (!best) {
        newest_.reset();
        throw InputError(folder_.string() +
                         ": no picture in it yet; take one, and check that the camera's program saves here");
    }
    if (!newest_ || newest_->path() != best->second) newest_.emplace(best->second);
}

std::shared_ptr<const Frame> FolderSource::poll() {
    find_newest();
    if (auto frame = newest_->poll()) return std::make_shared<const Frame>(std::move(*frame));
    return nullptr;
}

std::shared_ptr<const Frame> FolderSource::next(std::chrono::milliseconds patience) {
    return poll_until(patience, [this] { return poll(); });
}

}  // namespace tonemend
