#include "live/picture_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "live/legend_view.h"
#include "live/picture_marks.h"

namespace tonemend {
namespace {

constexpr double wheel_step = 1.2, key_step = 1.4;
constexpr float edge_step = 0.04F;
constexpr float handle_reach = 18;     // points: a gloved fingertip on a trackpad is no surgeon
constexpr double pair_margin = 0.86;   // of its half that the larger region fills
constexpr double moved_share = 0.005;  // of the picture's width that a card's corner moves with the camera

PicturePlace place_of(Shown which, const ViewTransform& view, const Box& part) {
    const Point corner = view.to_picture({part.x, part.y});
    return {which, part, corner.x, corner.y, 1 / view.scale()};
}

bool same_place(const Quad& one, const Quad& other, int width) {
    for (std::size_t i = 0; i < 4; ++i)
        if (std::hypot(one[i].x - other[i].x, one[i].y - other[i].y) > moved_share * width) return false;
    return true;
}

class Clip {
  public:
    Clip(Painter& painter, const Box& box) : painter_(painter) {
        painter.list.PushClipRect({box.x, box.y}, {box.right(), box.bottom()}, true);
    }
    ~Clip() { painter_.list.PopClipRect(); }
    Clip(const Clip&) = delete;
    Clip& operator=(const Clip&) = delete;

  private:
    Painter& painter_;
};

}  // namespace

void PicturePane::draw(Painter& painter, PictureScreen& screen, const Box& whole_box, const Bench& bench) {
    shown_ = !screen.empty(Shown::now);
    overlay_ = hold_overlay(bench.overlay(), bench.state());
    const float foot = bench.overlay() == Overlay::none ? 0 : legend_height(painter);
    const Box box{whole_box.x, whole_box.y, whole_box.width, whole_box.height - foot};
    box_ = box;
    if (foot > 0) {
        const Box plate{box.x, box.bottom() + 2, box.width, foot - 2};
        if (overlay_.kind == Overlay::none) {
            painter.fitted_paragraph(plate, "This overlay needs a reading to be held against.",
                                     {painter.fonts.body, painter.fonts.small}, painter.theme.ink,
                                     "legend words");
        } else {
            draw_legend(painter, plate, legend_of(overlay_, bench.state()));
        }
    }
    const Box half{box.x, box.y, std::floor(0.5F * box.width) - 1, box.height};
    const Box other{half.right() + 2, box.y, box.right() - half.right() - 2, box.height};
    const bool beside = bench.mode() == PictureMode::before_now;
    view_.set(screen.width(Shown::now), screen.height(Shown::now), beside ? other : box);
    before_view_.set(screen.width(Shown::before), screen.height(Shown::before), beside ? half : box);
    before_view_.follow(view_);
    const Clip clip(painter, box);
    switch (bench.mode()) {
        case PictureMode::whole:
            draw_whole(painter, screen, bench);
            break;
        case PictureMode::pair:
            draw_pair(painter, screen, bench);
            break;
        case PictureMode::wipe:
            draw_wipe(painter, screen, bench);
            break;
        case PictureMode::before_now:
            draw_before_now(painter, screen, bench);
            break;
    }
}

void PicturePane::draw_whole(Painter& painter, PictureScreen& screen, const Bench& bench) {
    screen.place(place_of(Shown::now, view_, box_), overlay_);
    draw_now_marks(painter, bench);
    const RegionEditor& editor = bench.editor();
    if (editor.unfinished().empty()) return;
    auto points = on_screen(view_, editor.unfinished());
    points.push_back(ImGui::GetIO().MousePos);
    draw_outline(painter, points, 2.5F, painter.theme.touch, ImDrawFlags_None);
    for (const ImVec2& point : points)
        painter.list.AddCircleFilled(point, 6, to_colour(painter.theme.strong));
}

void PicturePane::draw_now_marks(Painter& painter, const Bench& bench) {
    const BenchState& state = bench.state();
    static const std::vector<PatchReading> none;
    if (state.card_window)
        draw_card_marks(painter, view_, *state.card_window,
                        state.calibration ? state.calibration->patches : none);
    const RegionEditor& editor = bench.editor();
    const bool whole = bench.mode() == PictureMode::whole;
    const auto draw = [&](const std::optional<Region>& region, Role role, std::string_view word) {
        if (!region) return;
        const bool held = whole && editor.selected() == role;
        draw_region_mark(painter, view_, region->corners, word, held ? Handles::corners : Handles::none);
    };
    draw(editor.regions().original, Role::original, "original");
    draw(editor.regions().repair, Role::repair, "repair");
    draw(editor.regions().card, Role::card, "card");
}

void PicturePane::draw_before_marks(Painter& painter, const Box& part, const Bench& bench) {
    const auto before = bench.before();
    if (!before) {
        painter.fitted_paragraph(part.inset(font_size(painter.fonts.body)), bench.before_words(),
                                 {painter.fonts.large, painter.fonts.body, painter.fonts.small},
                                 painter.theme.ink, "before words");
        return;
    }
    if (before->regions.original)
        draw_region_mark(painter, before_view_, before->regions.original->corners, "original", Handles::none);
    if (before->regions.repair)
        draw_region_mark(painter, before_view_, before->regions.repair->corners, "repair", Handles::none);
    const auto& now = bench.state().card_window;
    const bool moved =
        now && before->card_window && !same_place(*now, *before->card_window, bench.state().frame->width);
    const float line = 1.5F * font_size(painter.fonts.body);
    if (moved) draw_tag(painter, part.x, part.y + 2 * line, "the camera has moved since", Align::left);
    draw_tag(painter, part.x, part.y + line, bench.before_words(), Align::left);
}

void PicturePane::draw_pair(Painter& painter, PictureScreen& screen, const Bench& bench) {
    const BenchRegions& regions = bench.editor().regions();
    if (!regions.original || !regions.repair) {
        painter.fitted_paragraph(box_.inset(font_size(painter.fonts.body)),
                                 "Mark both regions first, with O and R.", {painter.fonts.large},
                                 painter.theme.ink, "pair words");
        return;
    }
    const float half = std::floor(0.5F * box_.width);
    const PixelRect a = bounds(*regions.original), b = bounds(*regions.repair);
    const double across = half / static_cast<double>(std::max(a.width, b.width));
    const double down = static_cast<double>(box_.height) / std::max(a.height, b.height);
    const double scale = pair_zoom_ * pair_margin * std::min(across, down);
    const auto draw_half = [&](const Box& part, const PixelRect& region, const std::vector<Point>& corners,
                               std::string_view word) {
        ViewTransform view;
        view.set(screen.width(Shown::now), screen.height(Shown::now), part);
        view.look_at({region.x + 0.5 * region.width, region.y + 0.5 * region.height}, scale);
        screen.place(place_of(Shown::now, view, part), overlay_);
        const Clip clip(painter, part);
        draw_outline(painter, on_screen(view, corners), 1.5F, painter.theme.touch_hover, ImDrawFlags_Closed);
        draw_tag(painter, part.x, part.y + 1.5F * font_size(painter.fonts.body), word, Align::left);
    };
    draw_half({box_.x, box_.y, half, box_.height}, a, regions.original->corners, "original");
    draw_half({box_.x + half, box_.y, box_.width - half, box_.height}, b, regions.repair->corners, "repair");
}

void PicturePane::draw_both(Painter& painter, PictureScreen& screen, const Box& left, const Box& right,
                            const Bench& bench) {
    if (bench.before()) screen.place(place_of(Shown::before, before_view_, left), overlay_);
    screen.place(place_of(Shown::now, view_, right), overlay_);
    {
        const Clip clip(painter, right);
        draw_now_marks(painter, bench);
        draw_tag(painter, right.right(), right.y + 1.5F * font_size(painter.fonts.body), "now", Align::right);
    }
    const Clip clip(painter, left);
    draw_before_marks(painter, left, bench);
}

void PicturePane::draw_wipe(Painter& painter, PictureScreen& screen, const Bench& bench) {
    const float at = std::round(edge());
    const Box left{box_.x, box_.y, at - box_.x, box_.height};
    const Box right{at, box_.y, box_.right() - at, box_.height};
    draw_both(painter, screen, left, right, bench);
    const float radius = 0.8F * font_size(painter.fonts.body);
    const ImU32 dark = IM_COL32(0, 0, 0, 190), light = to_colour(painter.theme.touch_hover);
    painter.list.AddLine({at, box_.y}, {at, box_.bottom()}, dark, 5);
    painter.list.AddLine({at, box_.y}, {at, box_.bottom()}, light, 2);
    painter.list.AddCircleFilled({at, box_.middle_y()}, radius + 2, dark);
    painter.list.AddCircleFilled({at, box_.middle_y()}, radius, light);
}

void PicturePane::draw_before_now(Painter& painter, PictureScreen& screen, const Bench& bench) {
    draw_both(painter, screen, before_view_.box(), view_.box(), bench);
}

void PicturePane::zoom(double factor, ScreenPoint at) {
    // Over the other picture of the two the same place of this one is meant.
    if (!view_.box().holds(at.x, at.y)) at.x += view_.box().x - before_view_.box().x;
    view_.zoom(factor, at);
    pair_zoom_ = std::clamp(pair_zoom_ * factor, 0.25, 32.0);
}

void PicturePane::handle_pointer(Bench& bench, float scale) {
    const ImGuiIO& io = ImGui::GetIO();
    const ScreenPoint pointer{io.MousePos.x, io.MousePos.y};
    const bool over = box_.holds(pointer.x, pointer.y) && shown_;
    RegionEditor& editor = bench.editor();
    if (over && io.MouseWheel != 0) zoom(std::pow(wheel_step, io.MouseWheel), pointer);
    const float reach = handle_reach * scale;
    if (over && ImGui::IsMouseClicked(0) && !io.KeyShift) {
        hold_ = Hold::picture;
        if (bench.mode() == PictureMode::wipe && std::abs(pointer.x - edge()) <= reach) hold_ = Hold::edge;
        if (bench.mode() == PictureMode::whole) {
            const bool had_polygon = !editor.unfinished().empty();
            if (editor.press(view_.to_picture(pointer), reach / view_.scale())) hold_ = Hold::region;
            if (had_polygon && editor.unfinished().empty()) bench.regions_changed();
        }
    } else if (over && (ImGui::IsMouseClicked(2) || ImGui::IsMouseClicked(0))) {
        hold_ = Hold::picture;
    }
    if (hold_ == Hold::region && editor.dragging()) {
        editor.drag(view_.to_picture(pointer));
        bench.regions_changed();
        if (!io.MouseDown[0]) {
            editor.release();
            bench.regions_changed();
        }
    }
    if (hold_ == Hold::edge) wipe_ = std::clamp((pointer.x - box_.x) / box_.width, 0.0F, 1.0F);
    if (hold_ == Hold::picture) view_.pan(io.MouseDelta.x, io.MouseDelta.y);
    if (!io.MouseDown[0] && !io.MouseDown[2]) hold_ = Hold::nothing;
}

bool PicturePane::perform(Action action, Bench& bench) {
    const ScreenPoint middle{view_.box().middle_x(), view_.box().middle_y()};
    const float step = 0.08F * view_.box().width;
    const bool free = !bench.editor().selected() || bench.mode() != PictureMode::whole;
    const auto move = [&](float right, float down) {
        if (!free) return false;
        if (bench.mode() == PictureMode::wipe && right != 0) {
            wipe_ = std::clamp(wipe_ + right * edge_step, 0.0F, 1.0F);
        } else {
            view_.pan(-right * step, -down * step);
        }
        return true;
    };
    switch (action) {
        case Action::zoom_in:
            zoom(key_step, middle);
            return true;
        case Action::zoom_out:
            zoom(1 / key_step, middle);
            return true;
        case Action::fit_picture:
            view_.fit();
            pair_zoom_ = 1;
            wipe_ = 0.5F;
            return true;
        case Action::actual_size:
            view_.actual_size();
            return true;
        case Action::move_left:
            return move(-1, 0);
        case Action::move_right:
            return move(1, 0);
        case Action::move_up:
            return move(0, -1);
        case Action::move_down:
            return move(0, 1);
        default:
            return false;
    }
}

}  // namespace tonemend
