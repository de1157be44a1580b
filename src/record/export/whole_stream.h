#pragma once

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <span>

namespace tonemend {

/// A file that its owner alone can read, written piece by piece beside its place and put there when it is
/// whole: what was there before is then replaced, and else left.
class WholeStream {
  public:
    /// Throws InputError when the folder cannot be written.
    explicit WholeStream(std::filesystem::path file);
    ~WholeStream();
    WholeStream(const WholeStream&) = delete;
    WholeStream& operator=(const WholeStream&) = delete;

    std::ostream& stream() { return out_; }
    /// Throws InputError when the disk is full; nothing is left behind then.
    void finish();

  private:
    std::filesystem::path file_, unfinished_;
    std::ofstream out_;
};

/// Writes all of it as a WholeStream.
void write_owners_file(const std::filesystem::path& file, std::span<const std::byte> bytes);

}  // namespace tonemend
