#include "record/report/svg_drawing.h"

#include <fmt/format.h>

#include "record/report/html_text.h"

namespace tonemend {
namespace {

std::string stroke_of(LineStyle line, double thickness, const ReportRgb& stroke) {
    if (line == LineStyle::none || thickness <= 0) return " stroke=\"none\"";
    return fmt::format(" stroke=\"{}\" stroke-width=\"{:.2f}\"{}", hex_of(stroke), thickness,
                       line == LineStyle::dashed
                           ? fmt::format(" stroke-dasharray=\"{:.2f} {:.2f}\"", 4 * thickness, 3 * thickness)
                           : "");
}

struct SvgWriter {
    std::string svg;

    void operator()(const DrawnPath& path) {
        std::string way;
        for (std::size_t i = 0; i < path.corners.size(); ++i)
            way += fmt::format("{}{:.2f} {:.2f}", i == 0 ? 'M' : 'L', path.corners[i].x, path.corners[i].y);
        svg += fmt::format("<path d=\"{}{}\" fill=\"{}\"{}/>\n", way, path.closed ? "Z" : "",
                           path.filled ? hex_of(path.fill) : "none",
                           stroke_of(path.line, path.thickness, path.stroke));
    }
    void operator()(const DrawnDisc& disc) {
        svg +=
            fmt::format("<circle cx=\"{:.2f}\" cy=\"{:.2f}\" r=\"{:.2f}\" fill=\"{}\"{}/>\n", disc.centre.x,
                        disc.centre.y, disc.radius, disc.filled ? hex_of(disc.fill) : "none",
                        stroke_of(LineStyle::whole, disc.thickness, disc.stroke));
    }
    void operator()(const DrawnWords& words) {
        const char* anchor = words.anchor == DrawnAnchor::start    ? "start"
                             : words.anchor == DrawnAnchor::middle ? "middle"
                                                                   : "end";
        svg += fmt::format(
            "<text x=\"{:.2f}\" y=\"{:.2f}\" font-size=\"{:.1f}\" text-anchor=\"{}\" "
            "fill=\"{}\"{}>{}</text>\n",
            words.at.x, words.at.y, words.size, anchor, hex_of(words.colour),
            words.bold ? " font-weight=\"700\"" : "", html_text(words.text));
    }
};

}  // namespace

std::string svg_of(const ReportDrawing& drawing, const std::string& style_class) {
    SvgWriter writer;
    const std::string shown = drawing.words.empty()
                                  ? std::string(" aria-hidden=\"true\"")
                                  : fmt::format(" role=\"img\" aria-label=\"{}\"", html_text(drawing.words));
    writer.svg = fmt::format(
        "<svg class=\"{}\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.2f} {:.2f}\"{}>\n",
        style_class, drawing.width, drawing.height, shown);
    for (const DrawnPart& part : drawing.parts) std::visit(writer, part);
    return writer.svg + "</svg>";
}

}  // namespace tonemend
