#pragma once

#include <string>

#include "record/report/report_drawing.h"

namespace tonemend {

/// The verdict's shapes as everywhere in the program: a disc, a ring, two discs apart, a ring with a bar, a
/// cross.
enum class ReportMark { none, match, close, off, undecided, unfit };

/// Of "match" or "holds", "close" or "caution", "off" or "alarm", "undecided", "unfit"; none of other words.
ReportMark mark_of(const std::string& verdict);

/// The shape in a square whose sides are 24.
ReportDrawing draw_mark(ReportMark mark, const ReportPalette& palette);

}  // namespace tonemend
