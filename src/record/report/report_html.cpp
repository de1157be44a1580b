#include "record/report/report_html.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>

#include "record/report/html_style.h"
#include "record/report/html_text.h"
#include "record/report/report_plot.h"
#include "record/report/report_words.h"
#include "record/report/svg_drawing.h"

namespace tonemend {
namespace {

// Escaped, and no line broken between a number and its unit or its ±.
std::string flowing_text(const std::string& text) {
    std::string escaped;
    std::size_t begin = 0;
    for (const std::size_t blank : unbroken_blanks(text)) {
        escaped += html_text(std::string_view(text).substr(begin, blank - begin)) + "&nbsp;";
        begin = blank + 1;
    }
    return escaped + html_text(std::string_view(text).substr(begin));
}

// What the style sheet knows a cell as.
const char* style_of(const std::string& text) {
    if (text.empty()) return " class=\"empty\"";
    if (text == nothing_there) return " class=\"none\"";
    if (text.size() < 20 && text.find("±") != std::string::npos) return " class=\"number\"";
    if (text.size() < 24 && text.ends_with(" UTC")) return " class=\"when\"";
    return "";
}

// Writes the parts of the page one after the other.
class HtmlWriter {
  public:
    HtmlWriter(const ReportPictures& pictures, const ReportOptions& options)
        : pictures_(pictures), options_(options), palette_(report_palette(options.grey)) {}

    void head(const ReportContent& content) {
        page_ += fmt::format(
            "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
            "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
            "<meta name=\"color-scheme\" content=\"light\">\n<title>{}</title>\n<style>{}</style>\n</head>\n"
            "<body>\n<main>\n",
            html_text(content.title), html_style(palette_, options_.paper));
    }
    /// In the text's own direction, that of its first strong letter; nothing when it is empty.
    void paragraph(const std::string& text, const char* style_class = nullptr) {
        if (text.empty()) return;
        const std::string style = style_class == nullptr ? "" : fmt::format(" class=\"{}\"", style_class);
        page_ += fmt::format("<p{} dir=\"auto\">{}</p>\n", style, html_text(text));
    }
    void heading(int level, const std::string& text) {
        if (!text.empty()) page_ += fmt::format("<h{0} dir=\"auto\">{1}</h{0}>\n", level, html_text(text));
    }
    void facts(const std::vector<ReportFact>& facts) {
        if (facts.empty()) return;
        page_ += "<dl>\n";
        for (const ReportFact& fact : facts)
            page_ += fmt::format("<dt>{}</dt><dd dir=\"auto\">{}</dd>\n", html_text(fact.label),
                                 html_text(fact.text));
        page_ += "</dl>\n";
    }
    void list(const std::vector<std::string>& items) {
        if (items.empty()) return;
        page_ += "<ul>\n";
        for (const std::string& item : items)
            page_ += fmt::format("<li dir=\"auto\">{}</li>\n", html_text(item));
        page_ += "</ul>\n";
    }
    void table(const ReportTable& table, const char* style_class = "plain") {
        if (table.rows.empty()) return;
        heading(3, table.title);
        page_ += fmt::format("<table class=\"{}\">\n<thead><tr>", style_class);
        for (const std::string& column : table.heads)
            page_ +=
                column.empty() ? "<td></td>" : fmt::format("<th scope=\"col\">{}</th>", html_text(column));
        page_ += "</tr></thead>\n<tbody>\n";
        for (const std::vector<ReportCell>& row : table.rows) {
            page_ += "<tr>";
            for (std::size_t i = 0; i < row.size(); ++i)
                cell(row[i], i < table.heads.size() ? table.heads[i] : "");
            page_ += "</tr>\n";
        }
        page_ += "</tbody>\n</table>\n";
        paragraph(table.below, "small");
    }
    void plate(const ReportArea& area) {
        page_ += "<div class=\"plate\">";
        if (area.mark != ReportMark::none) page_ += svg_of(draw_mark(area.mark, palette_), "mark");
        page_ += fmt::format("<div><strong>{}</strong><br>{}</div></div>\n", html_text(area.verdict),
                             flowing_text(area.statement));
    }
    void figures(const ReportArea& area) {
        if (area.figures.empty()) return;
        page_ += "<div class=\"pair\">\n";
        for (const ReportFigure& figure : area.figures) {
            page_ += fmt::format("<figure><figcaption>{}</figcaption>\n", html_text(figure.title));
            if (const auto picture = report_picture(pictures_, figure.sha256, options_.grey))
                page_ += fmt::format("<img alt=\"{}\" width=\"{}\" height=\"{}\" src=\"{}\">\n",
                                     html_text(figure.title + ", the annotated picture"), picture->width,
                                     picture->height, data_uri("image/jpeg", picture->jpeg));
            else  // The annotated picture has the two colours in it.
                page_ += "<div class=\"missing\">picture not kept</div>\n" +
                         svg_of(draw_swatches(figure.original, figure.repair, palette_, options_.grey),
                                "swatches");
            page_ += "</figure>\n";
        }
        page_ += "</div>\n";
    }
    void plots(const std::vector<ReportPoint>& points) {
        const auto ab = draw_ab_plot(points, palette_), lightness = draw_lightness_plot(points, palette_);
        if (!ab || !lightness) return;
        page_ += fmt::format("<div class=\"pair\">\n<figure>{}</figure>\n<figure>{}</figure>\n</div>\n",
                             svg_of(*ab, "plot"), svg_of(*lightness, "plot"));
    }
    std::string take() { return std::move(page_) + "</main>\n</body>\n</html>\n"; }

  private:
    void cell(const ReportCell& cell, const std::string& head) {
        page_ += fmt::format("<td data-head=\"{}\"{}{}>", html_text(head), style_of(cell.text),
                             cell.text.empty() ? "" : " dir=\"auto\"");
        // One element, so that it stays one beside the head of a stacked row.
        if (!cell.text.empty())
            page_ += fmt::format(
                "<span>{}{}</span>",
                cell.mark == ReportMark::none ? "" : svg_of(draw_mark(cell.mark, palette_), "mark"),
                flowing_text(cell.text));
        page_ += "</td>";
    }

    const ReportPictures& pictures_;
    const ReportOptions& options_;
    ReportPalette palette_;
    std::string page_;
};

void write_area(HtmlWriter& writer, const ReportArea& area) {
    writer.heading(2, area.title);
    writer.plate(area);
    writer.paragraph(area.note, "note");
    writer.figures(area);
    writer.table(area.change);
    writer.plots(area.points);
    writer.table(area.steps);
    writer.table(area.readings);
    if (!area.warnings.empty()) writer.heading(3, "What stood against readings");
    writer.list(area.warnings);
    writer.table(area.lights);
    writer.list(area.light_words);
}

}  // namespace

std::string report_html(const ReportContent& content, const ReportPictures& pictures,
                        const ReportOptions& options) {
    HtmlWriter writer(pictures, options);
    writer.head(content);
    writer.paragraph(content.shop, "shop");
    writer.heading(1, content.title);
    writer.facts(content.facts);
    for (const ReportArea& area : content.areas) write_area(writer, area);
    if (!content.cautions.empty()) writer.heading(2, "With care");
    writer.list(content.cautions);
    if (!content.made_with.empty()) writer.heading(2, "To read it again");
    for (const ReportFacts& group : content.made_with) {
        writer.heading(3, group.title);
        writer.facts(group.facts);
    }
    writer.table(content.files);
    writer.heading(2, "What the words and numbers mean");
    writer.list(content.terms);
    writer.table(content.hashes, "hashes");
    writer.paragraph(content.made, "made");
    return writer.take();
}

}  // namespace tonemend
