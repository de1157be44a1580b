#include "record/export/whole_stream.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

[[noreturn]] void refuse_file(const std::filesystem::path& file, const std::string& why) {
    throw InputError(fmt::format("{}: cannot be written ({}); check the folder and the room on the disk",
                                 one_line(file.string(), 400), why));
}

}  // namespace

WholeStream::WholeStream(std::filesystem::path file)
    : file_(std::move(file)),
      unfinished_(file_.parent_path() / fmt::format(".{}.{}", file_.filename().string(), getpid())) {
    const int made = open(unfinished_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    if (made < 0) refuse_file(file_, std::generic_category().message(errno));
    close(made);
    out_.open(unfinished_, std::ios::binary);
}

WholeStream::~WholeStream() {
    std::error_code ignored;
    std::filesystem::remove(unfinished_, ignored);
}

void WholeStream::finish() {
    out_.close();
    const int written = out_ ? open(unfinished_.c_str(), O_RDONLY | O_CLOEXEC) : -1;
    const bool safe = written >= 0 && fsync(written) == 0;
    if (written >= 0) close(written);
    std::error_code failure;
    if (!safe) refuse_file(file_, "is the disk full?");
    std::filesystem::rename(unfinished_, file_, failure);
    if (failure) refuse_file(file_, failure.message());
}

void write_owners_file(const std::filesystem::path& file, std::span<const std::byte> bytes) {
    WholeStream out(file);
    out.stream().write(reinterpret_cast<const char*>(bytes.data()),
                       static_cast<std::streamsize>(bytes.size()));
    out.finish();
}

}  // namespace tonemend
