#include "calibrate/keep/folder_lock.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

FolderLock::FolderLock(const std::filesystem::path& file)
    : descriptor_(open(file.has_parent_path() ? file.parent_path().c_str() : ".",
                       O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
    if (descriptor_ < 0)
        throw InputError(fmt::format("{}: its folder cannot be opened ({}); check the path",
                                     one_line(file.string(), 400), std::generic_category().message(errno)));
    while (flock(descriptor_, LOCK_EX) != 0 && errno == EINTR) {
    }
}

FolderLock::~FolderLock() {
    close(descriptor_);
}

}  // namespace tonemend
