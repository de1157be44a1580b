#include <algorithm>
#include <numeric>

#include "record/report/cairo_drawing.h"
#include "record/report/pdf_parts.h"

namespace tonemend {
namespace {

constexpr double table_type = 8, mono_type = 7, cell_gap = 7, cell_above = 3, cell_below = 3;

// A table of few rows stays on one page if it fills no more than this share of it.
constexpr std::size_t most_kept_together = 8;
constexpr double kept_share = 0.25;

using Columns = std::vector<std::pair<double, double>>;

std::vector<PdfCell> cells_of(const PdfFlow& flow, const std::vector<ReportCell>& row, const Columns& columns,
                              bool mono) {
    std::vector<PdfCell> cells;
    for (std::size_t i = 0; i < row.size() && i < columns.size(); ++i) {
        PdfType type = flow.type(mono && i > 0 ? mono_type : table_type);
        type.mono = mono && i > 0;
        cells.push_back({row[i].text, type, columns[i].first, columns[i].second, row[i].mark});
    }
    return cells;
}

// Where the columns stand; the last has no gap behind it.
Columns columns_of(const ReportTable& table, double width) {
    std::vector<double> shares = table.widths;
    shares.resize(table.heads.size(), 1);
    const double all = std::accumulate(shares.begin(), shares.end(), 0.0);
    Columns columns;
    double x = cell_gap / 2;
    const double unit = (width - cell_gap / 2) / all;
    for (const double share : shares) {
        columns.emplace_back(x, std::max(4.0, share * unit - cell_gap));
        x += share * unit;
    }
    return columns;
}

void draw_table_head(PdfFlow& flow, const std::vector<PdfCell>& cells) {
    const double height = flow.row_height(cells) + cell_above + cell_below;
    set_colour(flow.cairo(), flow.palette().plate);
    cairo_rectangle(flow.cairo(), flow.left(), flow.y(), flow.width(), height);
    cairo_fill(flow.cairo());
    flow.row(cells, cell_above, cell_below);
    flow.rule();
}

}  // namespace

void draw_table(PdfFlow& flow, const ReportTable& table, bool mono) {
    if (table.rows.empty()) return;
    const auto columns = columns_of(table, flow.width());
    std::vector<PdfCell> head;
    for (std::size_t i = 0; i < columns.size(); ++i)
        head.push_back({table.heads[i], flow.type(table_type, true), columns[i].first, columns[i].second,
                        ReportMark::none});
    std::vector<std::vector<PdfCell>> rows;
    double height = 0;
    for (const std::vector<ReportCell>& row : table.rows) {
        rows.push_back(cells_of(flow, row, columns, mono));
        if (rows.size() <= most_kept_together)
            height += flow.row_height(rows.back()) + cell_above + cell_below;
    }
    const bool together = rows.size() <= most_kept_together && height < kept_share * flow.page_height();
    const double first = flow.row_height(head) + 10 + (together ? height : 30);
    flow.skip(12);
    flow.heading(table.title, flow.type(10.5, true), first + 3);
    flow.skip(3);
    flow.need(first);
    const auto again = [&] { draw_table_head(flow, head); };
    again();
    for (const std::vector<PdfCell>& row : rows) {
        flow.row(row, cell_above, cell_below, again);
        flow.rule();
    }
    flow.skip(4);
    flow.paragraph(table.below, flow.faint(7.5));
}

void draw_facts(PdfFlow& flow, const std::vector<ReportFact>& facts) {
    const double label = 0.24 * flow.width();
    for (const ReportFact& fact : facts)
        flow.row({{fact.label, flow.faint(9), 0, label - cell_gap, ReportMark::none},
                  {fact.text, flow.type(9), label, flow.width() - label, ReportMark::none}},
                 1, 1);
}

void draw_list(PdfFlow& flow, const std::vector<std::string>& items) {
    constexpr double indent = 11;
    for (const std::string& item : items)
        flow.row({{"•", flow.type(9), 2, indent - 2, ReportMark::none},
                  {item, flow.type(9), indent, flow.width() - indent, ReportMark::none}},
                 1, 2);
}

}  // namespace tonemend
