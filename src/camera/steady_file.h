#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <optional>

#include "picture/frame.h"

namespace tonemend {

/// A picture file that may still be being written.
class SteadyFile {
  public:
    explicit SteadyFile(std::filesystem::path path) : path_(std::move(path)) {}

    const std::filesystem::path& path() const { return path_; }
    /// The picture, once after each change of the file: when size and time of the file have stayed the same
    /// for `steady_for` and it decodes. Nothing while it is being written or has been read already. A file
    /// that is steady but does not decode is given two seconds (a copy may fill a file whose full size was
    /// set at the start); then this throws its decoder's InputError, and at each further call until it
    /// changes. Throws InputError when the file is gone.
    std::optional<Frame> poll();

    static constexpr std::chrono::milliseconds steady_for{150};

  private:
    struct Stamp {
        std::uintmax_t size = 0;
        std::filesystem::file_time_type time;
        bool operator==(const Stamp&) const = default;
    };
    std::optional<Frame> try_to_read();

    std::filesystem::path path_;
    std::optional<Stamp> seen_;
    std::chrono::steady_clock::time_point seen_since_, next_try_;
    bool read_ = false;
    std::string trouble_;
};

}  // namespace tonemend
