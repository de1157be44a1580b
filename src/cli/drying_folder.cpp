#include <algorithm>
#include <chrono>
#include <filesystem>
#include <set>
#include <thread>
#include <vector>

#include "camera/folder_source.h"
#include "cli/drying_sources.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "picture/time_taken.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

struct TimedStill {
    fs::path path;
    double seconds = 0;
};

// A file that is still being written is looked at again later.
bool is_whole(const fs::path& path) {
    std::error_code failed;
    const auto written = fs::last_write_time(path, failed);
    const auto age = fs::file_time_type::clock::now() - written;
    return !failed && (age > std::chrono::seconds(1) || age < std::chrono::seconds(-1));
}

std::vector<TimedStill> list_stills(const DryingOptions& options, const std::set<fs::path>& seen) {
    const fs::path folder = options.source;
    std::error_code failed;
    if (!fs::is_directory(folder, failed))
        throw InputError(one_line(folder.string(), 400) +
                         ": no such folder; create it or choose another source");
    std::vector<TimedStill> stills;
    for (fs::directory_iterator at(folder, failed), end; !failed && at != end; at.increment(failed)) {
        std::error_code gone;
        if (!has_still_name(at->path()) || !at->is_regular_file(gone) || seen.contains(at->path())) continue;
        if (options.follow && !is_whole(at->path())) continue;
        try {
            stills.push_back({at->path(), time_taken(at->path()).seconds});
        } catch (const InputError&) {
            continue;  // gone again
        }
    }
    std::sort(stills.begin(), stills.end(), [](const TimedStill& one, const TimedStill& other) {
        return std::pair(one.seconds, one.path) < std::pair(other.seconds, other.path);
    });
    return stills;
}

}  // namespace

void watch_folder(const DryingOptions& options, DryingProgress& progress) {
    std::set<fs::path> seen;
    constexpr std::chrono::milliseconds pause{500};
    bool any = false;
    while (true) {
        for (const TimedStill& still : list_stills(options, seen)) {
            seen.insert(still.path);
            any = true;
            const std::string name = still.path.filename().string();
            if (progress.knows(name)) continue;
            std::shared_ptr<const Frame> frame;
            try {
                frame = std::make_shared<const Frame>(read_frame(still.path.string(), options.light));
            } catch (const InputError& error) {
                progress.say_left_out(error.what());
                continue;
            }
            progress.take(frame, still.seconds, name);
            if (progress.done()) return;
        }
        if (!options.follow) break;
        std::this_thread::sleep_for(pause);
    }
    if (!any)
        throw InputError(one_line(options.source, 400) +
                         ": no picture in it; take some of the wet region, or add --follow to wait for them");
}

}  // namespace tonemend
