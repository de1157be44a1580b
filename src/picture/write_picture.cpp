#include "picture/write_picture.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <deque>
#include <system_error>

#include <fmt/format.h>

#include "picture/encoders.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

// The process's, read before there is a second thread: it can only be read by setting it.
mode_t read_file_mask() {
    const mode_t mask = umask(0);
    umask(mask);
    return mask;
}
const mode_t file_mask = read_file_mask();

[[noreturn]] void refuse(const std::filesystem::path& path, int error_number) {
    throw InputError(
        fmt::format("{}: cannot be written ({}); check the folder, its permissions and the free space",
                    one_line(path.string(), 400), std::generic_category().message(error_number)));
}

EncodedBytes encode(const Frame& frame, const std::filesystem::path& path, const WriteOptions& options) {
    const std::string extension = file_ending(path);
    if (extension == ".png") return encode_png(frame, options);
    if (extension == ".tif" || extension == ".tiff") return encode_tiff(frame, options);
    if (extension == ".jpg" || extension == ".jpeg") return encode_jpeg(frame, options);
    if (extension == ".webp") return encode_webp(frame, options);
    throw InputError(
        "is not a kind of picture that can be written; end its name in .png, .tif, .jpg or .webp");
}

/// A whole temporary file beside the path that it is for; gone again with its owner unless it was put in
/// place.
class StagedFile {
  public:
    explicit StagedFile(const FileToWrite& file)
        : path_(file.path), temporary_(file.path.string() + ".XXXXXX") {
        const int descriptor = mkstemp(temporary_.data());
        if (descriptor < 0) refuse(path_, errno);
        const auto give_up = [&](int error_number) {
            close(descriptor);
            std::remove(temporary_.c_str());
            refuse(path_, error_number);
        };
        for (std::size_t done = 0; done < file.bytes.size();) {
            const ssize_t written = write(descriptor, file.bytes.data() + done, file.bytes.size() - done);
            if (written < 0 && errno == EINTR) continue;
            if (written < 0) give_up(errno);
            done += static_cast<std::size_t>(written);
        }
        // mkstemp makes a private file; the finished one is as readable as any other.
        if (fchmod(descriptor, static_cast<mode_t>(0666) & ~file_mask) != 0 || fsync(descriptor) != 0)
            give_up(errno);
        if (close(descriptor) != 0) {
            const int error_number = errno;
            std::remove(temporary_.c_str());
            refuse(path_, error_number);
        }
    }
    ~StagedFile() {
        if (!placed_) std::remove(temporary_.c_str());
    }
    StagedFile(const StagedFile&) = delete;
    StagedFile& operator=(const StagedFile&) = delete;

    void put_in_place() {
        if (std::rename(temporary_.c_str(), path_.c_str()) != 0) refuse(path_, errno);
        placed_ = true;
    }

  private:
    std::filesystem::path path_;
    std::string temporary_;
    bool placed_ = false;
};

}  // namespace

void write_whole_file(const std::filesystem::path& path, std::span<const std::byte> bytes) {
    write_whole_files({{path, bytes}});
}

void write_whole_files(const std::vector<FileToWrite>& files) {
    // A folder in the way of a name is found only by the renaming, when others may be in place.
    std::error_code failure;
    for (const FileToWrite& file : files)
        if (std::filesystem::is_directory(file.path, failure)) refuse(file.path, EISDIR);
    std::deque<StagedFile> staged;
    for (const FileToWrite& file : files) staged.emplace_back(file);
    for (StagedFile& file : staged) file.put_in_place();
}

void write_picture(const Frame& frame, const std::filesystem::path& path, const WriteOptions& options) {
    EncodedBytes bytes;
    try {
        bytes = encode(frame, path, options);
    } catch (const InputError& error) {
        throw InputError(fmt::format("{}: {}", one_line(path.string(), 400), error.what()));
    }
    write_whole_file(path, bytes);
}

}  // namespace tonemend
