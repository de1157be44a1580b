#pragma once

#include <filesystem>
#include <string>

#include "picture/frame.h"
#include "picture/standard_encodings.h"
#include "picture/write_picture.h"
#include "tests/support/scratch_folder.h"

namespace tonemend::testing {

/// An even grey picture.
inline Frame grey_frame(int width, int height, std::uint8_t code) {
    Frame frame;
    frame.name = "grey";
    frame.width = width;
    frame.height = height;
    frame.encoding = srgb_encoding(Provenance::stated);
    frame.samples.assign(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height),
                         std::byte{code});
    return frame;
}

inline int code_at(const Frame& frame, std::size_t sample) {
    return std::to_integer<int>(frame.samples.at(sample));
}

/// The file's bytes of an even grey picture; the name's ending says which format.
inline std::string grey_file(const std::string& name, int width, int height, std::uint8_t code) {
    const ScratchFolder folder;
    write_picture(grey_frame(width, height, code), folder / name);
    return content_of(folder / name);
}

}  // namespace tonemend::testing
