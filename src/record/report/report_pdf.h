#pragma once

#include <cstddef>
#include <vector>

#include "record/report/report_content.h"
#include "record/report/report_picture.h"

namespace tonemend {

/// The same report as a PDF on the options' paper: text stays text, pages are numbered "2 / 5", areas are
/// bookmarks. The same content gives the same bytes with one version of Cairo. Throws std::runtime_error when
/// Cairo has no memory left.
std::vector<std::byte> report_pdf(const ReportContent& content, const ReportPictures& pictures,
                                  const ReportOptions& options);

}  // namespace tonemend
