#include "camera/steady_file.h"

#include "picture/input_error.h"
#include "picture/read_picture.h"

namespace tonemend {

namespace {

using Clock = std::chrono::steady_clock;
constexpr std::chrono::milliseconds between_tries{250};
constexpr std::chrono::seconds longest_copy{2};

// What was written long ago is not being written now.
bool is_old(std::filesystem::file_time_type time) {
    return std::filesystem::file_time_type::clock::now() - time > std::chrono::seconds(2);
}

}  // namespace

std::optional<Frame> SteadyFile::poll() {
    std::error_code failed;
    Stamp now;
    now.size = std::filesystem::file_size(path_, failed);
    if (!failed) now.time = std::filesystem::last_write_time(path_, failed);
    if (failed) {
        seen_.reset();
        throw InputError(path_.string() + ": no such picture any more; put it back or choose another source");
    }
    if (seen_ != now) {
        seen_ = now;
        seen_since_ = Clock::now();
        next_try_ = is_old(now.time) ? seen_since_ : seen_since_ + steady_for;
        read_ = false;
        trouble_.clear();
    }
    if (!trouble_.empty()) throw InputError(trouble_);
    if (read_ || Clock::now() < next_try_) return std::nullopt;
    return try_to_read();
}

std::optional<Frame> SteadyFile::try_to_read() {
    try {
        Frame frame = read_picture(path_);
        read_ = true;
        return frame;
    } catch (const InputError& error) {
        next_try_ = Clock::now() + between_tries;
        if (Clock::now() - seen_since_ < longest_copy && !is_old(seen_->time)) return std::nullopt;
        trouble_ = error.what();
        throw;
    }
}

}  // namespace tonemend
