#pragma once

#include <string>

#include "advise/board/board.h"
#include "advise/kit/kit.h"

namespace tonemend {

/// A kit as "tonemend.kit/1", which DEVELOPERS.md describes.
std::string kit_text(const Kit& kit);
/// The kit back. Throws InputError: not such a text, newer, or a jar that require_jar refuses.
Kit kit_of_text(const std::string& text);

/// A board's strips as "tonemend.board/1"; name, wood and grit stand in the board's record.
std::string board_text(const SampleBoard& board);
/// Puts the strips back into `board`. Throws InputError likewise.
void read_board_text(const std::string& text, SampleBoard& board);

}  // namespace tonemend
