#pragma once

#include <functional>
#include <string>
#include <vector>

#include "record/report/pdf_flow.h"
#include "record/report/report_content.h"
#include "record/report/report_picture.h"

namespace tonemend {

/// Gives a picture's copy; null: there is none. What it points to must outlive the PDF.
using PdfPictures = std::function<const ReportPicture*(const std::string& sha256)>;

// The report's parts on paper. Each begins a new page where it must; an empty one draws nothing.

/// Its head is drawn again on each page; `mono`: from the second column on in letters of equal width.
void draw_table(PdfFlow& flow, const ReportTable& table, bool mono = false);
void draw_facts(PdfFlow& flow, const std::vector<ReportFact>& facts);
void draw_list(PdfFlow& flow, const std::vector<std::string>& items);
/// The verdict with its shape on a grey ground, and the numbers beside.
void draw_plate(PdfFlow& flow, const ReportArea& area);
/// Before and after side by side; where a picture is missing, a frame and the two colours.
void draw_figures(PdfFlow& flow, const std::vector<ReportFigure>& figures, const PdfPictures& pictures,
                  bool grey);
/// The two plots side by side; on a narrow sheet one below the other.
void draw_plots(PdfFlow& flow, const std::vector<ReportPoint>& points);

}  // namespace tonemend
