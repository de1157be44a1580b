#include "live/picture_pane.h"

#include <algorithm>
#include <cmath>

#include "live/screen_picture.h"

namespace tonemend {
namespace {

constexpr double wheel_step = 1.2, key_step = 1.4;
constexpr float handle_reach = 18;  // points: a gloved fingertip on a trackpad is no surgeon

ImVec2 to_vec(ScreenPoint point) {
    return {point.x, point.y};
}

std::vector<ImVec2> on_screen(const ViewTransform& view, const std::vector<Point>& corners) {
    std::vector<ImVec2> points;
    points.reserve(corners.size());
    for (const Point& corner : corners) points.push_back(to_vec(view.to_screen(corner)));
    return points;
}

// A light line on a dark one is seen on every wood.
void draw_outline(Painter& painter, const std::vector<ImVec2>& points, float thickness, Shade shade,
                  bool closed) {
    const auto count = static_cast<int>(points.size());
    const ImDrawFlags flags = closed ? ImDrawFlags_Closed : ImDrawFlags_None;
    painter.list.AddPolyline(points.data(), count, IM_COL32(0, 0, 0, 170), flags, thickness + 2.5F);
    painter.list.AddPolyline(points.data(), count, to_colour(shade), flags, thickness);
}

}  // namespace

void PicturePane::update(const Bench& bench) {
    const BenchState& state = bench.state();
    const auto newest = bench.newest_frame();
    if (newest && newest != shown_ && shows_as_is(*newest)) {
        texture_.upload(newest->width, newest->height,
                        reinterpret_cast<const std::uint8_t*>(newest->samples.data()));
        shown_ = newest;
    } else if (state.screen && state.frame != shown_ && state.frame == newest) {
        texture_.upload(state.frame->width, state.frame->height, state.screen->data());
        shown_ = state.frame;
    }
}

void PicturePane::draw(Painter& painter, const Box& box, const Bench& bench) {
    view_.set(std::max(1, texture_.width()), std::max(1, texture_.height()), box);
    painter.list.PushClipRect({box.x, box.y}, {box.right(), box.bottom()}, true);
    if (!texture_.empty()) {
        const auto from = view_.to_screen({0, 0});
        const auto to =
            view_.to_screen({static_cast<double>(texture_.width()), static_cast<double>(texture_.height())});
        painter.list.AddImage(texture_.id(), to_vec(from), to_vec(to));
    }
    draw_card(painter, bench);
    const RegionEditor& editor = bench.editor();
    if (editor.regions().original) draw_region(painter, *editor.regions().original, Role::original, bench);
    if (editor.regions().repair) draw_region(painter, *editor.regions().repair, Role::repair, bench);
    if (!editor.unfinished().empty()) {
        auto points = on_screen(view_, editor.unfinished());
        points.push_back(ImGui::GetIO().MousePos);
        draw_outline(painter, points, 2.5F, painter.theme.touch, false);
        for (const ImVec2& point : points)
            painter.list.AddCircleFilled(point, 6, to_colour(painter.theme.strong));
    }
    painter.list.PopClipRect();
}

void PicturePane::draw_card(Painter& painter, const Bench& bench) const {
    const BenchState& state = bench.state();
    if (!state.card) return;
    const Quad& window = state.card->window;
    const Shade shade = painter.theme.touch_hover;
    draw_outline(painter, on_screen(view_, {window.begin(), window.end()}), 1.5F, shade, true);
    if (!state.calibration) return;
    for (const PatchReading& patch : state.calibration->patches)
        draw_outline(painter, on_screen(view_, patch.area.corners), 1.0F, shade, true);
}

void PicturePane::draw_region(Painter& painter, const Region& region, Role role, const Bench& bench) const {
    const bool selected = bench.editor().selected() == role;
    const auto points = on_screen(view_, region.corners);
    const Shade line = selected ? Shade{168, 206, 238} : Shade{240, 240, 240};
    draw_outline(painter, points, selected ? 3.0F : 2.0F, line, true);
    if (selected) {
        const float side = 0.5F * font_size(painter.fonts.body);
        for (const ImVec2& point : points) {
            painter.list.AddRectFilled({point.x - side, point.y - side}, {point.x + side, point.y + side},
                                       IM_COL32(0, 0, 0, 190));
            painter.list.AddRectFilled({point.x - side + 2, point.y - side + 2},
                                       {point.x + side - 2, point.y + side - 2}, to_colour(line));
        }
    }
    const char* word = role == Role::original ? "original" : "repair";
    const float pad = 0.35F * font_size(painter.fonts.body), high = 1.3F * font_size(painter.fonts.body);
    const float wide = painter.width(word, painter.fonts.body) + 2 * pad;
    float left = points.front().x, top = points.front().y;
    for (const ImVec2& point : points) left = std::min(left, point.x), top = std::min(top, point.y);
    Box tag{left, top - high - (selected ? high * 0.45F : 2), wide, high};
    tag.y = std::max(tag.y, view_.box().y);
    painter.list.AddRectFilled({tag.x, tag.y}, {tag.right(), tag.bottom()}, IM_COL32(0, 0, 0, 175), 3);
    painter.text({tag.x + pad, tag.y, wide - 2 * pad + 1, high}, word, painter.fonts.body, line, Align::left,
                 "region tag");
}

void PicturePane::handle_pointer(Bench& bench, float scale) {
    const ImGuiIO& io = ImGui::GetIO();
    const ScreenPoint pointer{io.MousePos.x, io.MousePos.y};
    const bool over = view_.box().holds(pointer.x, pointer.y) && !texture_.empty();
    RegionEditor& editor = bench.editor();
    if (over && io.MouseWheel != 0) view_.zoom(std::pow(wheel_step, io.MouseWheel), pointer);
    if (over && ImGui::IsMouseClicked(0) && !io.KeyShift) {
        const bool had_polygon = !editor.unfinished().empty();
        editing_ = editor.press(view_.to_picture(pointer), handle_reach * scale / view_.scale());
        panning_ = !editing_;
        if (had_polygon && editor.unfinished().empty()) bench.regions_changed();
    } else if (over && (ImGui::IsMouseClicked(2) || ImGui::IsMouseClicked(0))) {
        panning_ = true;
    }
    if (editing_ && editor.dragging()) {
        editor.drag(view_.to_picture(pointer));
        bench.regions_changed();
        if (!io.MouseDown[0]) {
            editor.release();
            bench.regions_changed();
        }
    }
    if (panning_) view_.pan(io.MouseDelta.x, io.MouseDelta.y);
    if (!io.MouseDown[0] && !io.MouseDown[2]) panning_ = editing_ = false;
}

bool PicturePane::perform(Action action, Bench& bench) {
    const ScreenPoint middle{view_.box().middle_x(), view_.box().middle_y()};
    const float step = 0.08F * view_.box().width;
    const bool free = !bench.editor().selected();
    switch (action) {
        case Action::zoom_in:
            view_.zoom(key_step, middle);
            return true;
        case Action::zoom_out:
            view_.zoom(1 / key_step, middle);
            return true;
        case Action::fit_picture:
            view_.fit();
            return true;
        case Action::actual_size:
            view_.actual_size();
            return true;
        case Action::move_left:
            if (free) view_.pan(step, 0);
            return free;
        case Action::move_right:
            if (free) view_.pan(-step, 0);
            return free;
        case Action::move_up:
            if (free) view_.pan(0, step);
            return free;
        case Action::move_down:
            if (free) view_.pan(0, -step);
            return free;
        default:
            return false;
    }
}

}  // namespace tonemend
