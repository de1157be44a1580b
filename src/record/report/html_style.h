#pragma once

#include <string>

#include "record/report/report_options.h"
#include "record/report/report_palette.h"

namespace tonemend {

/// The page's style sheet: a column of at most 900 pixels, on a narrow screen tables as stacked rows, on
/// paper the sheet's size and margins.
std::string html_style(const ReportPalette& palette, PaperSize paper);

}  // namespace tonemend
