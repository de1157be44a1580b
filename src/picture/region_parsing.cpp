#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <string_view>

#include <fmt/format.h>

#include "picture/input_error.h"
#include "picture/polygon.h"
#include "picture/region.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr double largest_coordinate = 1e6;
constexpr std::size_t most_corners = 2000;
constexpr std::string_view region_form =
    "give x,y,width,height in whole pixels, or the corners of a polygon as \"x1,y1 x2,y2 x3,y3\"";
constexpr std::string_view quad_form = "give the four corners as \"x1,y1 x2,y2 x3,y3 x4,y4\"";

/// Where the text came from, so that every message can name it.
struct Source {
    const std::string& text;
    const std::string& role;
    std::string_view form;

    [[noreturn]] void refuse(std::string_view what) const {
        throw InputError(fmt::format("{} \"{}\": {}; {}", role, one_line(text, 80), what, form));
    }
};

std::vector<std::string_view> split(std::string_view text, std::string_view separators) {
    std::vector<std::string_view> parts;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(separators, at), text.size());
        parts.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return parts;
}

std::vector<std::string_view> words(std::string_view text) {
    std::vector<std::string_view> found;
    for (const std::string_view part : split(text, " \t\r\n"))
        if (!part.empty()) found.push_back(part);
    return found;
}

/// "250, 691" as people write it: blanks beside a comma part nothing.
std::string without_blanks_at_commas(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    std::string joined;
    for (const std::string_view part : split(text, ",")) {
        const bool first = part.data() == text.data();
        const bool last = part.data() + part.size() == text.data() + text.size();
        const std::size_t start = first ? 0 : std::min(part.find_first_not_of(blanks), part.size());
        const std::size_t end = last ? part.size() : part.find_last_not_of(blanks) + 1;
        if (!first) joined += ',';
        if (start < end) joined += part.substr(start, end - start);
    }
    return joined;
}

double number(std::string_view text, const Source& source) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (text.empty() || error != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
        source.refuse(fmt::format("\"{}\" is not a number", one_line(text, 30)));
    if (std::abs(value) > largest_coordinate)
        source.refuse(fmt::format("\"{}\" is beyond any picture", one_line(text, 30)));
    return value;
}

int whole_number(std::string_view text, const Source& source) {
    const double value = number(text, source);
    if (value != std::floor(value))
        source.refuse(fmt::format("\"{}\" is not a whole number of pixels", one_line(text, 30)));
    return static_cast<int>(value);
}

Point point(std::string_view text, const Source& source) {
    const auto parts = split(text, ",");
    if (parts.size() != 2) source.refuse(fmt::format("\"{}\" is not a corner x,y", one_line(text, 30)));
    return {number(parts[0], source), number(parts[1], source)};
}

Region parse_rectangle(std::string_view text, const Source& source) {
    const auto parts = split(text, ",");
    if (parts.size() != 4) source.refuse("not a region");
    const PixelRect rect{whole_number(parts[0], source), whole_number(parts[1], source),
                         whole_number(parts[2], source), whole_number(parts[3], source)};
    if (rect.width < 1 || rect.height < 1) source.refuse("the region has no area");
    return rectangle(rect);
}

/// Corners that repeat the one before them (or close the polygon) add nothing.
std::vector<Point> without_repeats(const std::vector<Point>& corners) {
    std::vector<Point> kept;
    for (const Point& corner : corners)
        if (kept.empty() || kept.back().x != corner.x || kept.back().y != corner.y) kept.push_back(corner);
    while (kept.size() > 1 && kept.back().x == kept.front().x && kept.back().y == kept.front().y)
        kept.pop_back();
    return kept;
}

}  // namespace

Region parse_region(const std::string& text, const std::string& role) {
    const Source source{text, role, region_form};
    const std::string joined = without_blanks_at_commas(text);
    const auto parts = words(joined);
    if (parts.empty()) source.refuse("no region given");
    if (parts.size() == 1) return parse_rectangle(parts[0], source);
    if (parts.size() > most_corners)
        source.refuse(fmt::format("a polygon may have at most {} corners", most_corners));

    std::vector<Point> corners;
    for (const std::string_view part : parts) corners.push_back(point(part, source));
    Region region{without_repeats(corners)};
    if (region.corners.size() < 3) source.refuse("a polygon needs at least three different corners");
    if (area(region) == 0) source.refuse("the region has no area");
    if (crosses_itself(region.corners)) source.refuse("the polygon crosses itself");
    return region;
}

Quad parse_quad(const std::string& text, const std::string& role) {
    const Source source{text, role, quad_form};
    const std::string joined = without_blanks_at_commas(text);
    const auto parts = words(joined);
    if (parts.size() != 4)
        source.refuse(fmt::format("{} corner{}, not four", parts.size(), parts.size() == 1 ? "" : "s"));
    Quad quad;
    for (std::size_t i = 0; i < 4; ++i) quad[i] = point(parts[i], source);
    if (!is_convex(quad)) source.refuse("the corners are not in order round a convex four-sided shape");
    return quad;
}

}  // namespace tonemend
