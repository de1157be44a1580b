#pragma once

#include <string>

#include "record/report/report_drawing.h"

namespace tonemend {

/// The drawing as an <svg> element for an HTML page, `style_class` being its class.
std::string svg_of(const ReportDrawing& drawing, const std::string& style_class);

}  // namespace tonemend
