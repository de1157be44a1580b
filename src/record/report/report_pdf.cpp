#include "record/report/report_pdf.h"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <map>
#include <memory>
#include <optional>
#include <stdexcept>

#include "record/report/cairo_drawing.h"
#include "record/report/html_text.h"
#include "record/report/pdf_parts.h"

namespace tonemend {
namespace {

struct FreePdfSurface {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct FreePdfCairo {
    void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};

cairo_status_t append_bytes(void* file, const unsigned char* data, unsigned int length) {
    auto* const bytes = static_cast<std::vector<std::byte>*>(file);
    const auto* const from = reinterpret_cast<const std::byte*>(data);
    bytes->insert(bytes->end(), from, from + length);
    return CAIRO_STATUS_SUCCESS;
}

void set_metadata(cairo_surface_t* surface, const ReportContent& content) {
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, clean_utf8(content.title).c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Tonemend " TONEMEND_VERSION);
    if (content.made_at.size() == 20)
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, content.made_at.c_str());
}

void section(PdfFlow& flow, const std::string& title, double behind = 60) {
    PdfType type = flow.type(14, true);
    type.colour = flow.palette().accent;
    flow.skip(20);
    flow.heading(title, type, behind);
    flow.skip(6);
}

void subsection(PdfFlow& flow, const std::string& title) {
    flow.skip(9);
    flow.heading(title, flow.type(10.5, true), 40);
    flow.skip(3);
}

void bookmark(cairo_surface_t* surface, const PdfFlow& flow, const std::string& title) {
    cairo_pdf_surface_add_outline(
        surface, CAIRO_PDF_OUTLINE_ROOT, clean_utf8(title).c_str(),
        fmt::format("page={} pos=[{:.0f} {:.0f}]", flow.page(), flow.left(), std::max(0.0, flow.y() - 30))
            .c_str(),
        static_cast<cairo_pdf_outline_flags_t>(0));
}

void draw_area(PdfFlow& flow, const ReportArea& area, const PdfPictures& pictures, bool grey) {
    draw_plate(flow, area);
    flow.skip(6);
    flow.paragraph(area.note, flow.type(9));
    draw_figures(flow, area.figures, pictures, grey);
    draw_table(flow, area.change);
    draw_plots(flow, area.points);
    draw_table(flow, area.steps);
    draw_table(flow, area.readings);
    if (!area.warnings.empty()) subsection(flow, "What stood against readings");
    draw_list(flow, area.warnings);
    draw_table(flow, area.lights);
    flow.skip(4);
    draw_list(flow, area.light_words);
}

void draw_report(PdfFlow& flow, cairo_surface_t* surface, const ReportContent& content,
                 const PdfPictures& pictures, bool grey) {
    flow.paragraph(content.shop, flow.faint(9.5));
    flow.paragraph(content.title, flow.type(20, true));
    flow.skip(6);
    draw_facts(flow, content.facts);
    for (const ReportArea& area : content.areas) {
        section(flow, area.title, 150);
        bookmark(surface, flow, area.title);
        draw_area(flow, area, pictures, grey);
    }
    if (!content.cautions.empty()) section(flow, "With care");
    draw_list(flow, content.cautions);
    if (!content.made_with.empty()) section(flow, "To read it again", 90);
    for (const ReportFacts& group : content.made_with) {
        subsection(flow, group.title);
        draw_facts(flow, group.facts);
    }
    draw_table(flow, content.files);
    section(flow, "What the words and numbers mean");
    draw_list(flow, content.terms);
    draw_table(flow, content.hashes, true);
    flow.skip(12);
    flow.paragraph(content.made, flow.faint(8));
}

struct DrawnPdf {
    std::vector<std::byte> bytes;
    int pages = 0;
};

DrawnPdf draw_pdf(const ReportContent& content, const PdfPictures& pictures, const ReportOptions& options,
                  int pages) {
    DrawnPdf drawn;
    const PaperSides sides = sides_of(options.paper);
    const std::unique_ptr<cairo_surface_t, FreePdfSurface> surface(
        cairo_pdf_surface_create_for_stream(append_bytes, &drawn.bytes, sides.width, sides.height));
    const std::unique_ptr<cairo_t, FreePdfCairo> cairo(cairo_create(surface.get()));
    set_metadata(surface.get(), content);
    PdfFlow flow(cairo.get(), sides, report_palette(options.grey), content.title, pages);
    draw_report(flow, surface.get(), content, pictures, options.grey);
    flow.finish();
    drawn.pages = flow.page();
    cairo_surface_finish(surface.get());
    for (const cairo_status_t status : {cairo_status(cairo.get()), cairo_surface_status(surface.get())})
        if (status != CAIRO_STATUS_SUCCESS && status != CAIRO_STATUS_SURFACE_FINISHED)
            throw std::runtime_error(
                fmt::format("the PDF cannot be drawn: {}", cairo_status_to_string(status)));
    return drawn;
}

}  // namespace

std::vector<std::byte> report_pdf(const ReportContent& content, const ReportPictures& pictures,
                                  const ReportOptions& options) {
    std::map<std::string, std::optional<ReportPicture>> copies;
    const PdfPictures copy_of = [&](const std::string& sha256) -> const ReportPicture* {
        auto found = copies.find(sha256);
        if (found == copies.end())
            found = copies.emplace(sha256, report_picture(pictures, sha256, options.grey)).first;
        return found->second ? &*found->second : nullptr;
    };
    // Once to count the pages.
    const int pages = draw_pdf(content, copy_of, options, 0).pages;
    return draw_pdf(content, copy_of, options, pages).bytes;
}

}  // namespace tonemend
