// Card files: CGATS text with a row for each patch.
#include "calibrate/card/card.h"

#include <sys/mman.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>

#include "picture/input_error.h"
#include "target.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// A file in memory, with a path.
class MemoryFile {
  public:
    MemoryFile(const std::uint8_t* data, std::size_t size) : descriptor_(memfd_create("card", 0)) {
        require_promise(descriptor_ >= 0 && write(descriptor_, data, size) == static_cast<ssize_t>(size),
                        "the system has room for a file");
    }
    ~MemoryFile() { close(descriptor_); }
    MemoryFile(const MemoryFile&) = delete;
    MemoryFile& operator=(const MemoryFile&) = delete;
    std::string path() const { return "/proc/self/fd/" + std::to_string(descriptor_); }

  private:
    int descriptor_;
};

void check_card(const Card& card) {
    bool neutral = false;
    for (const Patch& patch : card.patches) {
        neutral = neutral || patch.neutral();
        require_promise(patch.x0 >= 0 && patch.x0 < patch.x1 && patch.x1 <= 1 && patch.y0 >= 0 &&
                            patch.y0 < patch.y1 && patch.y1 <= 1,
                        "a patch is a rectangle on the card");
        require_promise(
            std::isfinite(patch.lab.L) && std::isfinite(patch.lab.a) && std::isfinite(patch.lab.b),
            "a patch's colour is finite");
    }
    require_promise(neutral, "a card has a neutral patch");
}

const char* const spectral_card =
    "CGATS.17\nORIGINATOR \"Our workshop\"\nDESCRIPTOR \"Two greys\"\nNUMBER_OF_FIELDS "
    "11\nBEGIN_DATA_FORMAT\n"
    "SAMPLE_ID SAMPLE_NAME X0 Y0 X1 Y1 REFLECTANCE SPECTRAL_NM_400 SPECTRAL_NM_500 SPECTRAL_NM_600 "
    "SPECTRAL_NM_700\n"
    "END_DATA_FORMAT\nNUMBER_OF_SETS 2\nBEGIN_DATA\n"
    "1 \"light grey\" 0.05 0.1 0.45 0.9 0.55 0.55 0.55 0.55 0.54\n2 dark 0.55 0.1 0.95 0.9 0.18 0.18 0.18 "
    "0.18 0.18\nEND_DATA\n";
const char* const xyz_card =
    "CGATS.5\n# measured\nKEYWORD \"LIGHT\"\nLIGHT \"D50\"\nNUMBER_OF_FIELDS 8\nBEGIN_DATA_FORMAT\n"
    "SAMPLE_NAME X0 Y0 X1 Y1 XYZ_X XYZ_Y XYZ_Z\nEND_DATA_FORMAT\nNUMBER_OF_SETS 1\nBEGIN_DATA\n"
    "grey\t0.1\t0.1\t0.9\t0.9\t17.3\t18.0\t14.8\nEND_DATA\n";

}  // namespace

std::vector<std::string> tonemend::testing::fuzz_seeds() {
    std::vector<std::string> seeds{spectral_card, xyz_card};
    const std::filesystem::path folder = std::filesystem::path(TONEMEND_SOURCE_DIR) / "calibration";
    for (const char* name : {"grey-card.txt", "three-step-card.txt", "six-step-card.txt"})
        seeds.push_back(content_of(folder / name));
    return seeds;
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const MemoryFile file(data, size);
    try {
        check_card(read_card(file.path()));
    } catch (const InputError& error) {
        const std::string text = error.what();
        require_promise(text.starts_with(file.path()), "a refusal names its file");
        require_promise(text.find('\n') == text.npos, "a refusal is one line");
    }
    return 0;
}
