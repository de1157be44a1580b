#include "record/reading_number.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <system_error>
#include <vector>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t fewest_digits = 4, most_digits = 6;
constexpr std::array endings{".json", ".png", ".frame.tif", ".json.undone"};
constexpr int most_readings = 999'999;

std::string shown_path(const fs::path& path) {
    return one_line(path.string(), 400);
}

std::vector<int> numbers_in(const fs::path& folder) {
    std::error_code error;
    std::vector<int> numbers;
    for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error))
        if (const int number = reading_number(entry->path())) numbers.push_back(number);
    if (error)
        throw InputError(fmt::format("{}: cannot be listed ({}); check its permissions", shown_path(folder),
                                     error.message()));
    return numbers;
}

fs::path claim_path(const fs::path& folder, int number) {
    return folder / fmt::format(".{:04d}.claim", number);
}

// False when another program holds it.
bool create_alone(const fs::path& claim) {
    const int descriptor = open(claim.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor >= 0) return close(descriptor) == 0;
    if (errno == EEXIST) return false;
    throw InputError(
        fmt::format("{}: cannot be written ({}); check the folder, its permissions and the free space",
                    shown_path(claim.parent_path()), std::generic_category().message(errno)));
}

}  // namespace

int reading_number(const fs::path& file) {
    const std::string name = file.filename().string();
    if (std::none_of(endings.begin(), endings.end(),
                     [&](const char* ending) { return name.ends_with(ending); }))
        return 0;
    const std::size_t digits = std::min(name.find_first_not_of("0123456789"), name.size());
    if (digits < fewest_digits || digits > most_digits || digits == name.size() || name[digits] != '-')
        return 0;
    int number = 0;
    std::from_chars(name.data(), name.data() + digits, number);
    return number;
}

ReadingNumber::ReadingNumber(const fs::path& folder) {
    int taken = 0;  // the highest number known to be taken
    for (;;) {
        for (const int number : numbers_in(folder)) taken = std::max(taken, number);
        int next = taken + 1;
        while (next <= most_readings && !create_alone(claim_path(folder, next))) ++next;
        if (next > most_readings)
            throw InputError(fmt::format("{}: holds readings up to number {}; choose a new folder",
                                         shown_path(folder), most_readings));
        // Its last owner may have finished between the listing and the claim.
        const auto now = numbers_in(folder);
        if (std::find(now.begin(), now.end(), next) == now.end()) {
            value_ = next;
            claim_ = claim_path(folder, next);
            return;
        }
        unlink(claim_path(folder, next).c_str());
        taken = next;
    }
}

ReadingNumber::~ReadingNumber() {
    unlink(claim_.c_str());
}

}  // namespace tonemend
