#include "record/lamp_drawing.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace tonemend {
namespace {

constexpr double width = 720, height = 430, reach = 300;
constexpr Point work_middle{360, 330};

// Greys alone: colour means nothing here.
std::string line(const Point& from, const Point& to, const char* grey, double thickness,
                 const char* more = "") {
    return fmt::format(
        "<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\" stroke=\"{}\" stroke-width=\"{}\" fill=\"none\"{}/>\n",
        from.x, from.y, to.x, to.y, grey, thickness, more);
}

std::string words(const Point& at, const char* anchor, const std::string& text) {
    return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\">{}</text>\n", at.x, at.y, anchor,
                       text);
}

Point between(const Point& from, const Point& to, double share) {
    return {from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)};
}

// A sheet across the way from `from` to `to`.
std::string sheet(const Point& from, const Point& to, double share, double half) {
    const Point middle = between(from, to, share);
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const Point across{(to.y - from.y) / length * half, -(to.x - from.x) / length * half};
    return line({middle.x - across.x, middle.y - across.y}, {middle.x + across.x, middle.y + across.y},
                "#222", 5, " stroke-dasharray=\"3 3\"");
}

std::string lamp(const Point& at) {
    return fmt::format(
        "<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"16\" fill=\"#eee\" stroke=\"#222\" "
        "stroke-width=\"2\"/>\n",
        at.x, at.y);
}

}  // namespace

LampPlan plan_lamps(double degrees) {
    const double angle = degrees * std::numbers::pi / 180;
    LampPlan plan;
    plan.work = work_middle;
    plan.camera = {work_middle.x, work_middle.y - reach};
    for (const double side : {-1.0, 1.0}) {
        const double x = reach * std::sin(angle), y = work_middle.y - reach * std::cos(angle);
        plan.lamps.push_back({work_middle.x + side * x, y});
        plan.mirrored.push_back({work_middle.x - side * x, y});
    }
    return plan;
}

std::string draw_lamps(const LampPlan& plan) {
    std::string svg = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\" "
        "font-family=\"sans-serif\" font-size=\"15\">\n"
        "<title>Lamps at 45 degrees, polarisers crossed</title>\n"
        "<rect width=\"{0}\" height=\"{1}\" fill=\"#fff\"/>\n"
        "<rect x=\"110\" y=\"{2:.1f}\" width=\"500\" height=\"16\" fill=\"#999\"/>\n",
        width, height, plan.work.y);
    // One lamp's light, and where the finish mirrors it: past the camera, towards the other lamp.
    svg += line(plan.lamps[0], plan.work, "#222", 2);
    svg +=
        line(plan.work, between(plan.work, plan.mirrored[0], 0.72), "#222", 2, " stroke-dasharray=\"8 6\"");
    svg += line(plan.lamps[1], plan.work, "#bbb", 2);
    svg += line(plan.work, between(plan.work, plan.camera, 0.85), "#888", 6);
    for (const Point& at : plan.lamps) svg += sheet(at, plan.work, 0.18, 34) + lamp(at);
    svg += sheet(plan.camera, plan.work, 0.13, 26);
    svg += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"60\" height=\"34\" fill=\"#444\"/>\n",
                       plan.camera.x - 30, plan.camera.y - 24);
    svg += words({plan.camera.x + 40, plan.camera.y - 6}, "start", "camera, straight above");
    svg +=
        words({plan.camera.x + 34, plan.camera.y + 28}, "start", "polariser, turned across the lamps' own");
    svg += words({plan.lamps[0].x - 10, plan.lamps[0].y - 26}, "middle", "lamp at 45°, polariser before it");
    svg += words({plan.lamps[1].x + 10, plan.lamps[1].y - 26}, "middle", "a second one alike, or none");
    svg += words({plan.work.x + 92, plan.work.y - 60}, "start", "dashed: what the finish mirrors");
    svg += words({plan.work.x + 92, plan.work.y - 40}, "start", "leaves at 45°, past the camera");
    svg += words({plan.work.x + 12, plan.work.y - 212}, "start", "the wood's own light");
    svg += words({plan.work.x, plan.work.y + 38}, "middle", "original, repair and card, flat");
    svg += words({plan.work.x, plan.work.y + 70}, "middle",
                 "Film near a hot lamp melts or burns: cool lamps, and the distance its maker states.");
    svg += words({plan.work.x, plan.work.y + 90}, "middle",
                 "Crossed film takes three quarters of the light or more: expose longer, on a stand.");
    return svg + "</svg>\n";
}

}  // namespace tonemend
