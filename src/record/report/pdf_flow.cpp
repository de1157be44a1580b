#include "record/report/pdf_flow.h"

#include <fmt/format.h>

#include <algorithm>

#include "record/report/cairo_drawing.h"

namespace tonemend {
namespace {

// The width that the sizes of type are made for, and the least that they shrink to.
constexpr double full_width = 500, least_shrink = 0.8;
constexpr double foot_size = 7.5;

// Beside a cell's text, in parts of its type's size.
constexpr double mark_share = 1.2, mark_gap = 0.4;

double room_for_mark(const PdfCell& cell) {
    return cell.mark == ReportMark::none ? 0 : (mark_share + mark_gap) * cell.type.size;
}

}  // namespace

PdfFlow::PdfFlow(cairo_t* cairo, PaperSides sides, const ReportPalette& palette, std::string foot, int pages)
    : cairo_(cairo), sides_(sides), palette_(palette), foot_(std::move(foot)), pages_(pages) {
    margin_ = std::clamp(0.07 * sides.width, 28.0, 42.0);
    y_ = margin_;
}

PdfType PdfFlow::type(double size, bool bold) const {
    return {size * std::clamp(width() / full_width, least_shrink, 1.0), palette_.ink, bold, false};
}

PdfType PdfFlow::faint(double size) const {
    PdfType small = type(size);
    small.colour = palette_.faint;
    return small;
}

void PdfFlow::need(double height) {
    if (height > room() + 0.01 && !at_top()) next_page();
}

void PdfFlow::write_foot() {
    const PdfText number(cairo_,
                         pages_ > 0 ? fmt::format("{} / {}", page_, pages_) : fmt::format("{}", page_),
                         faint(foot_size), 0);
    const double top = sides_.height - margin_ - number.height();
    std::size_t line = 0;
    number.draw(cairo_, {margin_ + width() - number.width(), top}, line, number.height());
    const PdfText foot(cairo_, foot_, faint(foot_size), 0.8 * width());
    line = 0;
    // Its first line alone.
    foot.draw(cairo_, {margin_, top}, line, foot.line_height(0));
}

void PdfFlow::next_page() {
    write_foot();
    cairo_show_page(cairo_);
    ++page_;
    y_ = margin_;
}

void PdfFlow::finish() {
    write_foot();
    cairo_show_page(cairo_);
}

void PdfFlow::rule() {
    set_colour(cairo_, palette_.rule);
    cairo_set_dash(cairo_, nullptr, 0, 0);
    cairo_set_line_width(cairo_, 0.5);
    cairo_move_to(cairo_, left(), y_);
    cairo_line_to(cairo_, left() + width(), y_);
    cairo_stroke(cairo_);
}

std::vector<PdfFlow::LaidCell> PdfFlow::lay_out(const std::vector<PdfCell>& cells) const {
    std::vector<LaidCell> laid;
    for (const PdfCell& cell : cells) {
        const double beside = room_for_mark(cell);
        laid.push_back({PdfText(cairo_, cell.text, cell.type, std::max(4.0, cell.width - beside)),
                        left() + cell.x + beside, cell.mark});
    }
    return laid;
}

double PdfFlow::row_height(const std::vector<PdfCell>& cells) const {
    double height = 0;
    for (const LaidCell& cell : lay_out(cells)) height = std::max(height, cell.text.height());
    return height;
}

bool PdfFlow::draw_some(std::vector<LaidCell>& cells, double below, bool fresh) {
    double filled = 0;
    bool all = true, any = false;
    for (LaidCell& cell : cells) {
        const std::size_t first = cell.line;
        const double height = cell.text.draw(cairo_, {cell.x, y_}, cell.line, room());
        any = any || cell.line > first;
        if (first == 0 && cell.line > 0 && cell.mark != ReportMark::none) {
            const double line = cell.text.line_height(0), side = 0.9 * line;
            const ReportDrawing mark = draw_mark(cell.mark, palette_);
            draw_on(cairo_, mark, {cell.x - 1.25 * side, y_ + 0.5 * (line - side)}, side / mark.width);
        }
        // It would never fit.
        if (cell.line == first && fresh && cell.line < cell.text.lines()) ++cell.line;
        filled = std::max(filled, height);
        all = all && cell.line >= cell.text.lines();
    }
    y_ += any ? filled + (all ? below : 0) : 0;
    return all;
}

void PdfFlow::paragraph(const std::string& text, const PdfType& type, double indent) {
    if (text.empty()) return;
    row({{text, type, indent, width() - indent}}, 0, 0);
}

void PdfFlow::heading(const std::string& text, const PdfType& type, double behind) {
    if (text.empty()) return;
    need(row_height({{text, type, 0, width()}}) + behind);
    paragraph(text, type);
}

}  // namespace tonemend
