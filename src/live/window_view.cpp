#include "live/window_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "live/coats_view.h"
#include "live/controls.h"
#include "live/desk/desk_view.h"
#include "live/keys_page.h"
#include "live/light_choice.h"
#include "live/overlay_choice.h"
#include "live/pair_view.h"
#include "live/second_light_view.h"
#include "live/trust_view.h"
#include "live/verdict_view.h"
#include "live/vials_view.h"

namespace tonemend {
namespace {

struct Control {
    Action action;
    std::string word;
    Weight weight = Weight::ordinary;
};

std::string_view short_word(PictureMode mode) {
    return mode == PictureMode::whole ? "view" : mode == PictureMode::before_now ? "before" : name(mode);
}

std::vector<Control> tools(const Bench& bench) {
    const RegionEditor& editor = bench.editor();
    const auto chosen = [](bool is) { return is ? Weight::chosen : Weight::ordinary; };
    return {
        {Action::select_original, "original", chosen(editor.selected() == Role::original)},
        {Action::select_repair, "repair", chosen(editor.selected() == Role::repair)},
        {Action::next_shape, editor.shape() == RegionShape::rectangle ? "box" : "polygon"},
        {Action::next_view, std::string(short_word(bench.mode())),
         chosen(bench.mode() != PictureMode::whole)},
        {Action::next_overlay, std::string(name(bench.overlay())), chosen(bench.overlay() != Overlay::none)},
        {Action::lock_camera, "lock"},
        {Action::next_source, "source"},
        {Action::show_plan, "plan", chosen(bench.page() == Page::plan)},
        {Action::show_jobs, "jobs", chosen(bench.page() == Page::jobs)},
        {Action::show_keys, "keys", chosen(bench.page() == Page::keys)}};
}

std::vector<Control> practice_controls(const Bench& bench) {
    if (!bench.feed().practice()) return {};
    const PracticeKnobs& knobs = bench.feed().knobs();
    return {{Action::next_lamp, std::string(practice_lamps.at(knobs.lamp).word)},
            {Action::next_coat, fmt::format("coat {}", knobs.coat + 1)},
            {Action::next_tilt, fmt::format("tilt {:.0f}°", practice_tilts.at(knobs.tilt))},
            {Action::wet_or_dry, knobs.wet ? "wet" : "dry"},
            {Action::next_fault, std::string(practice_cameras.at(knobs.camera))}};
}

std::string status_line(const Bench& bench) {
    const RegionEditor& editor = bench.editor();
    if (editor.selected() == Role::card && !editor.regions().card)
        return fmt::format("Bare card: click corner {} of 4, clockwise from its top left. Esc leaves it.",
                           editor.unfinished().size() + 1);
    if (std::string notice = bench.notice(); !notice.empty()) return notice;
    const BenchState& state = bench.state();
    if (!state.trouble.empty()) return state.trouble;
    if (bench.feed().stands_in()) return "No camera found: practice bench. Plug a camera in and press S.";
    std::string line = bench.feed().name();
    if (const auto frame = bench.newest_frame())
        line += fmt::format("   {} × {}", frame->width, frame->height);
    if (state.card) line += "   card found";
    if (state.regions.card) line += "   card as marked";
    if (state.frames_averaged > 1) line += fmt::format("   mean of {}", state.frames_averaged);
    return line;
}

}  // namespace

LayoutRequest WindowView::request(const Bench& bench, float width, float height, float scale) {
    return {width, height, scale, static_cast<int>(tools(bench).size()),
            static_cast<int>(practice_controls(bench).size())};
}

void WindowView::set_display(const ScreenColours& colours, ThemeName name) {
    colours_ = colours;
    theme_ = colours_.theme_of(name);
    screen_.set_display(colours_, theme_.surround);
}

void WindowView::update(const Bench& bench) {
    const BenchState& state = bench.state();
    const auto frame = bench.newest_frame();
    // The picture is as new as can be; the calibration is the last one that belongs to such a picture.
    const bool fits = frame && state.frame && state.frame->encoding.decoding == frame->encoding.decoding;
    screen_.bring(Shown::now, frame, fits ? state.calibration : nullptr);
    if (const auto before = bench.before()) screen_.bring(Shown::before, before->frame, before->calibration);
}

void WindowView::perform(Action action, Bench& bench) {
    if (!picture_.perform(action, bench)) bench.perform(action);
}

void WindowView::draw_left(Painter& painter, Bench& bench, const Layout& layout, float scale) {
    painter.fitted_paragraph(layout.status, status_line(bench), {painter.fonts.body, painter.fonts.small},
                             painter.theme.ink, "status");
    if (bench.page() != Page::picture) {
        draw_page(painter, bench, layout);
        return;
    }
    picture_.draw(painter, screen_, layout.picture, bench);
    picture_.handle_pointer(bench, scale);
    const auto draw_row = [&](const std::vector<Control>& controls, const std::vector<Box>& boxes) {
        for (std::size_t i = 0; i < controls.size() && i < boxes.size(); ++i) {
            const Control& control = controls[i];
            if (draw_control(painter, boxes[i], control.action, control.word, control.weight))
                perform(control.action, bench);
        }
    };
    draw_row(practice_controls(bench), layout.practice);
    draw_row(tools(bench), layout.tools);
}

// A page takes the place of the picture and its controls; a key or a click anywhere on it leads back.
void WindowView::draw_page(Painter& painter, Bench& bench, const Layout& layout) {
    Box box = layout.picture;
    for (const auto* boxes : {&layout.practice, &layout.tools})
        for (const Box& control : *boxes) box.height = std::max(box.height, control.bottom() - box.y);
    std::optional<Action> chosen;
    if (bench.typing()) {
        switch (bench.page()) {
            case Page::jobs:
                return draw_jobs_page(painter, box, bench);
            case Page::coat:
                return draw_coat_page(painter, box, bench);
            case Page::plan:
                return draw_plan_page(painter, box, bench);
            default:
                return draw_board_page(painter, box, bench);
        }
    }
    if (bench.page() == Page::keys) {
        chosen = draw_keys_page(painter, box);
    } else {
        draw_warnings_page(painter, box, bench);
    }
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    if (!chosen && ImGui::IsMouseReleased(0) && box.holds(pointer.x, pointer.y)) chosen = Action::step_back;
    if (chosen) perform(*chosen, bench);
}

void WindowView::draw_column(Painter& painter, const Bench& bench, const Layout& layout) {
    const BenchState& state = bench.state();
    const Comparison* comparison = state.comparison ? &*state.comparison : nullptr;
    Box plate = layout.verdict;
    if (comparison == nullptr) plate.height = layout.move.bottom() - plate.y;  // guidance takes what is free
    draw_verdict(painter, plate, bench);
    draw_move(painter, layout.move, bench);
    draw_vials_view(painter, layout.vials, comparison);
    if (state.held)
        draw_second_light(painter, layout.pair, state);
    else if (comparison != nullptr)
        draw_pair(painter, screen_, layout.pair, *comparison);
    draw_trust(painter, layout.trust, bench);
}

// What goes with a reading stands beside the control that keeps it.
void WindowView::draw_known(Painter& painter, Bench& bench, const Layout& layout) {
    const auto draw = [&](const Box& box, Action action, const ControlWords& words) {
        const bool room = control_fits(painter, box, action, words.whole);
        if (draw_control(painter, box, action, room ? words.whole : words.brief, Weight::ordinary))
            perform(action, bench);
    };
    const Settings& settings = bench.settings();
    draw(layout.light, Action::next_light, light_words(settings.light));
    draw(layout.colourants, Action::next_colourants, colourants_words(settings.colourants));
}

std::vector<std::string> WindowView::draw(Bench& bench, const Layout& layout, const Fonts& fonts,
                                          float scale) {
    const ImGuiIO& io = ImGui::GetIO();
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(io.DisplaySize);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowMinSize, {1, 1});
    ImGui::Begin("bench", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoNav |
                     ImGuiWindowFlags_NoScrollWithMouse);
    Painter painter(*ImGui::GetWindowDrawList(), fonts, theme_, colours_);
    draw_left(painter, bench, layout, scale);
    draw_column(painter, bench, layout);
    if (draw_control(painter, layout.take, Action::take_reading, "Take reading", Weight::main))
        perform(Action::take_reading, bench);
    draw_known(painter, bench, layout);
    draw_coats(painter, layout.coats, bench);
    if (draw_control(painter, layout.undo, Action::undo, "undo", Weight::ordinary))
        perform(Action::undo, bench);
    ImGui::End();
    ImGui::PopStyleVar(3);
    return painter.cut();
}

}  // namespace tonemend
