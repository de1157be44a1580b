#include <cmath>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

#include "calibrate/card/card_frame_drawing.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

std::string length(double mm) {
    std::string text = fmt::format("{:.3f}", mm);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string shade(double grey) {
    const int level = static_cast<int>(std::lround(grey * 255));
    return fmt::format("#{0:02x}{0:02x}{0:02x}", level);
}

std::string to_svg(const DrawnBox& box) {
    return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\"/>\n", length(box.x),
                       length(box.y), length(box.width), length(box.height), shade(box.grey));
}

std::string to_svg(const DrawnLine& line) {
    return fmt::format("<path d=\"M{} {}L{} {}\" stroke=\"{}\" stroke-width=\"{}\"{}/>\n", length(line.x0),
                       length(line.y0), length(line.x1), length(line.y1), shade(line.grey),
                       length(line.thickness),
                       line.pattern == DrawnLine::Pattern::dashed ? " stroke-dasharray=\"2 1\"" : "");
}

std::string to_svg(const DrawnTriangle& triangle) {
    return fmt::format("<path d=\"M{} {}L{} {}L{} {}Z\"/>\n", length(triangle.a.x), length(triangle.a.y),
                       length(triangle.b.x), length(triangle.b.y), length(triangle.c.x),
                       length(triangle.c.y));
}

std::string to_svg(const DrawnText& text) {
    return fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}>{}</text>\n", length(text.x),
                       length(text.y), length(text.size),
                       text.weight == DrawnText::Weight::bold ? " font-weight=\"bold\"" : "", text.text);
}

}  // namespace

void write_card_frame_svg(const CardFrame& frame, const std::filesystem::path& path) {
    const CardFrameDrawing drawing = draw_card_frame(frame);
    std::string svg = fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} "
        "{1}\">\n"
        "<title>{2}</title>\n",
        length(drawing.width), length(drawing.height), drawing.title);
    svg += "<g shape-rendering=\"crispEdges\">\n";
    for (const DrawnBox& box : drawing.boxes) svg += to_svg(box);
    svg += "</g>\n";
    for (const DrawnLine& line : drawing.lines) svg += to_svg(line);
    for (const DrawnTriangle& triangle : drawing.triangles) svg += to_svg(triangle);
    svg += "<g font-family=\"DejaVu Sans, Verdana, Helvetica, Arial, sans-serif\" text-anchor=\"middle\">\n";
    for (const DrawnText& text : drawing.texts) svg += to_svg(text);
    svg += "</g>\n</svg>\n";

    std::ofstream file(path, std::ios::binary);
    file << svg;
    file.close();
    if (!file)
        throw InputError(fmt::format(
            "{}: cannot be written; choose a folder that exists and that you may write to", path.string()));
}

}  // namespace tonemend
