#include "record/label_place.h"

#include <algorithm>

namespace tonemend {
namespace {

double common_area(const CanvasBox& p, const CanvasBox& q) {
    const double width = std::min(p.x + p.width, q.x + q.width) - std::max(p.x, q.x);
    const double height = std::min(p.y + p.height, q.y + q.height) - std::max(p.y, q.y);
    return std::max(0.0, width) * std::max(0.0, height);
}

}  // namespace

CanvasBox place_label(const CanvasBox& region, double width, double height,
                      const std::vector<CanvasBox>& keep_clear, double right, double bottom) {
    const double far_x = region.x + region.width, far_y = region.y + region.height;
    const Point corners[] = {
        {region.x, region.y - height},       // above, from its left edge
        {far_x - width, region.y - height},  // above, to its right edge
        {region.x, far_y},                   // below
        {far_x - width, far_y},              //
        {far_x, region.y},                   // right of it
        {far_x, far_y - height},             //
        {region.x - width, region.y},        // left of it
        {region.x - width, far_y - height},  //
        {region.x, region.y - 2 * height},   // above another label
        {far_x - width, region.y - 2 * height},
        {region.x, far_y + height},  // below another label
        {far_x - width, far_y + height},
        {region.x, region.y},  // in it
    };
    CanvasBox best{};
    double least = -1;
    for (const Point& corner : corners) {
        const CanvasBox box{std::clamp(corner.x, 0.0, std::max(0.0, right - width)),
                            std::clamp(corner.y, 0.0, std::max(0.0, bottom - height)), width, height};
        double covered = common_area(box, region);
        for (const CanvasBox& other : keep_clear) covered += common_area(box, other);
        if (least < 0 || covered < least) best = box, least = covered;
        if (least == 0) break;
    }
    return best;
}

}  // namespace tonemend
