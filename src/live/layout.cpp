#include "live/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace tonemend {
namespace {

// Sizes at scale 1, in pixels at 96 to the inch. A figure 64 pixels high is 12 mm of digit: six millimetres a
// metre of distance, twice what an eye test asks.
constexpr float body_size = 16, huge_size = 80, least_target = 44;

struct Rows {
    int columns = 1, rows = 0;
};

Rows share_out(int count, float width, float least_width, float gap) {
    if (count == 0) return {};
    const int most = std::max(1, static_cast<int>((width + gap) / (least_width + gap)));
    const int rows = (count + most - 1) / most;
    return {(count + rows - 1) / rows, rows};
}

std::vector<Box> place_rows(int count, const Rows& rows, const Box& area, float height, float gap) {
    std::vector<Box> boxes;
    const auto columns = static_cast<float>(rows.columns);
    const float width = (area.width - gap * (columns - 1)) / columns;
    for (int i = 0; i < count; ++i) {
        const auto column = static_cast<float>(i % rows.columns), row = static_cast<float>(i / rows.columns);
        boxes.push_back({std::floor(area.x + column * (width + gap)),
                         std::floor(area.y + row * (height + gap)), std::floor(width), std::floor(height)});
    }
    return boxes;
}

// What a part of the column would like, and what it can live with.
struct Part {
    float wanted = 0, least = 0;
};

void lay_out_column(Layout& layout, const Box& column, float gap) {
    const float line = layout.line;
    std::array<Part, 5> parts{Part{1.22F * layout.huge + 2.1F * line, 1.1F * layout.huge + 1.2F * line},
                              Part{3.9F * layout.large + 1.2F * line, 2.8F * line},
                              Part{8.4F * line, 5.6F * line}, Part{6 * line, 1.6F * line},
                              Part{3.3F * line, 2.3F * line}};
    float wanted = 0, least = 0;
    for (const Part& part : parts) wanted += part.wanted, least += part.least;
    const float room = column.height - 4 * gap;
    // Between the two, all give way alike; with room to spare the pair grows, then the vials and the verdict.
    const float share = std::clamp((room - least) / (wanted - least), 0.0F, 1.0F);
    const float shrink = std::min(1.0F, room / least);
    std::array<float, 5> heights{};
    for (std::size_t i = 0; i < 5; ++i)
        heights[i] = shrink * (parts[i].least + share * (parts[i].wanted - parts[i].least));
    const float spare = std::max(0.0F, room - wanted), to_pair = std::min(spare, 6 * line);
    heights[3] += to_pair;
    heights[2] += 0.6F * (spare - to_pair);
    heights[0] += 0.4F * (spare - to_pair);
    float y = column.y;
    std::size_t next = 0;
    for (Box* box : {&layout.verdict, &layout.move, &layout.vials, &layout.pair, &layout.trust}) {
        *box = {column.x, std::floor(y), column.width, std::floor(heights[next])};
        y += heights[next++] + gap;
    }
    // The figures fill their plate: the farther they are read, the better.
    const float whole = layout.verdict.height - 1.45F * layout.body, captioned = whole - 1.3F * layout.small;
    const float most = std::min(0.24F * column.width, 1.8F * layout.huge);
    // Where the caption would make the figures smaller than they were meant to be, it goes.
    layout.huge = std::round(std::min(captioned < layout.huge ? whole : captioned, most));
}

}  // namespace

Layout lay_out(const LayoutRequest& request) {
    Layout layout;
    const float w = request.width, h = request.height;
    // Type can grow only as far as the window holds a sentence beside a picture.
    const float scale = std::min({request.scale, w / 640, h / 400});
    layout.body = std::round(body_size * scale);
    layout.small = std::round(0.85F * layout.body);
    layout.large = std::round(1.4F * layout.body);
    layout.huge = std::round(std::min({huge_size * scale, 0.1F * w, 0.14F * h}));
    layout.line = std::round(1.3F * layout.body);
    const float line = layout.line;
    const float margin = std::round(std::min(0.6F * layout.body, 0.016F * h)),
                gap = std::round(std::min(0.5F * layout.body, 0.014F * h));
    const float target = std::max(least_target * std::min(1.0F, h / 700), 1.75F * line);

    const float bottom_height = std::round(std::min(4.4F * line, 0.18F * h));
    const float bottom_y = h - margin - bottom_height;
    const float column_width = std::round(std::clamp(20.5F * line, 0.33F * w, 0.46F * w));
    const Box column{w - margin - column_width, margin, column_width, bottom_y - gap - margin};
    lay_out_column(layout, column, gap);

    const Box left{margin, margin, column.x - gap - margin, column.height};
    layout.status = {left.x, left.y, left.width, std::round(1.7F * line)};
    const float least_width = 4.3F * line;
    const Rows tools = share_out(request.tools, left.width, least_width, gap);
    const Rows practice = share_out(request.practice, left.width, least_width, gap);
    const auto rows = static_cast<float>(tools.rows + practice.rows);
    const float button = std::min(target, rows > 0 ? 0.46F * left.height / rows - gap : target);
    const float tools_height = static_cast<float>(tools.rows) * (button + gap);
    const float practice_height = static_cast<float>(practice.rows) * (button + gap);
    const float tools_y = left.bottom() - tools_height + gap;
    const float practice_y = tools_y - practice_height;
    layout.tools = place_rows(request.tools, tools, {left.x, tools_y, left.width, 0}, button, gap);
    layout.practice =
        place_rows(request.practice, practice, {left.x, practice_y, left.width, 0}, button, gap);
    const float picture_y = layout.status.bottom() + std::round(0.3F * gap);
    layout.picture = {left.x, picture_y, left.width, std::floor(practice_y - gap - picture_y)};

    const float take_width = std::round(std::min(9.5F * line, 0.3F * w));
    const float undo_width = std::round(std::min(4.6F * line, 0.15F * w));
    layout.take = {margin, bottom_y, take_width, bottom_height};
    layout.undo = {w - margin - undo_width, bottom_y, undo_width, bottom_height};
    const float known_width = std::round(std::min(7.4F * line, 0.17F * w));
    const float half = std::floor(0.5F * (bottom_height - 0.5F * gap));
    layout.light = {layout.take.right() + gap, bottom_y, known_width, half};
    layout.colourants = {layout.light.x, bottom_y + bottom_height - half, known_width, half};
    layout.coats = {layout.light.right() + gap, bottom_y, layout.undo.x - layout.light.right() - 2 * gap,
                    bottom_height};
    return layout;
}

std::vector<NamedBox> named_boxes(const Layout& layout) {
    std::vector<NamedBox> boxes{{"status", layout.status},   {"picture", layout.picture},
                                {"verdict", layout.verdict}, {"move", layout.move},
                                {"vials", layout.vials},     {"pair", layout.pair},
                                {"trust", layout.trust},     {"take", layout.take},
                                {"light", layout.light},     {"colourants", layout.colourants},
                                {"coats", layout.coats},     {"undo", layout.undo}};
    for (std::size_t i = 0; i < layout.tools.size(); ++i)
        boxes.push_back({fmt::format("tool {}", i), layout.tools[i]});
    for (std::size_t i = 0; i < layout.practice.size(); ++i)
        boxes.push_back({fmt::format("practice {}", i), layout.practice[i]});
    return boxes;
}

}  // namespace tonemend
