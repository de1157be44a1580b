#include "picture/file_bytes.h"

#include <cerrno>
#include <cstdio>
#include <system_error>

#include <fmt/format.h>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr std::uintmax_t largest_file = std::uintmax_t{4} << 30;

struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

}  // namespace

FileBytes read_file_bytes(const std::filesystem::path& path) {
    const std::string name = one_line(path.string(), 400);
    std::error_code error;
    const auto status = std::filesystem::status(path, error);
    if (!std::filesystem::exists(status))
        throw InputError(fmt::format("{}: there is no such file; check the name", name));
    if (std::filesystem::is_directory(status))
        throw InputError(fmt::format("{}: is a folder; give a picture file in it", name));
    if (!std::filesystem::is_regular_file(status))
        throw InputError(fmt::format("{}: is not an ordinary file; copy it to the disk first", name));

    const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
    if (!file)
        throw InputError(fmt::format("{}: cannot be opened ({}); check its permissions", name,
                                     std::generic_category().message(errno)));
    const std::uintmax_t size = std::filesystem::file_size(path, error);
    if (error) throw InputError(fmt::format("{}: cannot be read ({})", name, error.message()));
    if (size == 0) throw InputError(fmt::format("{}: is empty; copy it from the camera again", name));
    if (size > largest_file)
        throw InputError(fmt::format("{}: is larger than 4 GiB; save a smaller picture", name));

    FileBytes bytes{std::make_unique_for_overwrite<std::byte[]>(size), size};
    if (std::fread(bytes.data.get(), 1, size, file.get()) != size)
        throw InputError(fmt::format("{}: cannot be read to its end; copy it from the camera again", name));
    return bytes;
}

}  // namespace tonemend
