#pragma once

#include <cairo.h>

#include <algorithm>
#include <string>
#include <vector>

#include "record/report/pdf_text.h"
#include "record/report/report_options.h"
#include "record/report/verdict_mark.h"

namespace tonemend {

/// A cell of a row: a text, `x` and `width` from the left margin.
struct PdfCell {
    std::string text;
    PdfType type;
    double x = 0, width = 0;
    ReportMark mark = ReportMark::none;
};

/// A cursor that goes down pages and begins a new one where there is no room. Lengths are points.
class PdfFlow {
  public:
    /// `pages`: how many there will be, for "2 / 5"; `foot` stands at the bottom of each.
    PdfFlow(cairo_t* cairo, PaperSides sides, const ReportPalette& palette, std::string foot, int pages);

    cairo_t* cairo() const { return cairo_; }
    const ReportPalette& palette() const { return palette_; }
    double left() const { return margin_; }
    double width() const { return sides_.width - 2 * margin_; }
    double page_height() const { return bottom() - margin_; }
    double y() const { return y_; }
    double room() const { return bottom() - y_; }
    int page() const { return page_; }
    bool at_top() const { return y_ <= margin_; }

    /// `size` points on A4, less on a small sheet.
    PdfType type(double size, bool bold = false) const;
    PdfType faint(double size) const;

    void skip(double height) {
        if (!at_top()) y_ += height;
    }
    void take(double height) { y_ += height; }
    /// Begins a new page unless so much room is left, or the page is fresh.
    void need(double height);
    void next_page();
    /// A text of the flow's width, over as many pages as it needs.
    void paragraph(const std::string& text, const PdfType& type, double indent = 0);
    /// A paragraph that keeps `behind` points together with it.
    void heading(const std::string& text, const PdfType& type, double behind);
    /// Texts side by side, each over as many lines and pages as it needs; on a new page `again` (may be null)
    /// is called first. Kept on one page if it fits on one. `above` and `below` are clear space.
    template <typename Again>
    void row(const std::vector<PdfCell>& cells, double above, double below, Again again);
    void row(const std::vector<PdfCell>& cells, double above, double below) {
        row(cells, above, below, [] {});
    }
    /// The height of a row's texts.
    double row_height(const std::vector<PdfCell>& cells) const;
    /// A thin line across at the cursor.
    void rule();
    /// Writes the last page's foot; nothing may follow.
    void finish();

  private:
    struct LaidCell {
        PdfText text;
        double x;
        ReportMark mark;
        std::size_t line = 0;
    };
    std::vector<LaidCell> lay_out(const std::vector<PdfCell>& cells) const;
    /// Draws what fits; true when all is drawn. On a `fresh` page a line that is higher than it is passed
    /// over.
    bool draw_some(std::vector<LaidCell>& cells, double below, bool fresh);
    void write_foot();
    double bottom() const { return sides_.height - margin_ - 14; }

    cairo_t* cairo_;
    PaperSides sides_;
    ReportPalette palette_;
    std::string foot_;
    int pages_ = 0, page_ = 1;
    double margin_ = 0, y_ = 0;
};

template <typename Again>
void PdfFlow::row(const std::vector<PdfCell>& cells, double above, double below, Again again) {
    constexpr double room_for_rounding = 0.01;
    std::vector<LaidCell> laid = lay_out(cells);
    double height = 0;
    for (const LaidCell& cell : laid) height = std::max(height, cell.text.height());
    const auto turn = [&] {
        next_page();
        again();
    };
    // One that fits on no page begins where it stands.
    if (height + above + below > room() + room_for_rounding && !at_top() &&
        height + above + below < 0.8 * page_height())
        turn();
    take(above);
    for (bool fresh = false; !draw_some(laid, below, fresh); fresh = true) {
        turn();
        take(above);
    }
}

}  // namespace tonemend
