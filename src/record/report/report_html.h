#pragma once

#include <string>

#include "record/report/report_content.h"
#include "record/report/report_picture.h"

namespace tonemend {

/// The report as one HTML5 file that needs nothing beside it: no script, pictures and plots within. Made to
/// be read on a phone, on a desk, and printed on the options' paper, in colour or in grey.
std::string report_html(const ReportContent& content, const ReportPictures& pictures,
                        const ReportOptions& options);

}  // namespace tonemend
