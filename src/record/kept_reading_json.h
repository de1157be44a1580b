#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "record/reading_store.h"

namespace tonemend {

/// The comparison as to_json gives it, and when, of which picture, and its source (see source_json); `file`
/// is the source's picture.
nlohmann::ordered_json reading_json(const ReadingToKeep& reading, const std::string& file);

/// What a list shows of it; number and place are left out. Empty when it is no "tonemend.comparison/1".
std::optional<KeptReading> kept_reading(const std::string& text);

/// The "tonemend.frame/1" object that DEVELOPERS.md describes. Numbers are exact.
nlohmann::ordered_json source_json(const ReadingPicture& source, const std::string& file);

/// The name of the picture's file in a kept reading's text. Throws InputError without a file name ahead: no
/// picture was kept, the text is damaged, or newer than this program.
std::string source_file(const std::string& text);
/// The whole of it, with `frame` as read from that file and put right by what the text says of it. Throws
/// InputError likewise.
ReadingPicture to_source(const std::string& text, Frame frame);

}  // namespace tonemend
