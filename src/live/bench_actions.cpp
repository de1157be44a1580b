#include <fmt/format.h>

#include <algorithm>

#include "live/bench.h"
#include "live/light_choice.h"
#include "live/overlay_choice.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr double text_step = 1.25;

std::string_view colourants_help(RepairColourants colourants) {
    switch (colourants) {
        case RepairColourants::same:
            return "more or less of the original's own";
        case RepairColourants::earth:
            return "other earth and wood colours";
        case RepairColourants::other:
            return "of any hue, so the ± is wider";
    }
    return "";
}

}  // namespace

void Bench::step_back() {
    if (page_ != Page::picture) {
        page_ = Page::picture;
        return;
    }
    editor_.deselect();
    changed_ = true;
}

void Bench::toggle(bool Settings::*setting, const std::string& on, const std::string& off) {
    settings_.*setting = !(settings_.*setting);
    say(settings_.*setting ? on : off);
    save();
}

void Bench::scale_text(double factor) {
    settings_.text_scale = std::clamp(settings_.text_scale * factor, least_text_scale, greatest_text_scale);
    save();
}

void Bench::go_to_next_light() {
    try {
        state_light(light_after(settings_.light));
        say(settings_.light.empty()
                ? "The lamp's kind is not stated any more."
                : fmt::format("The lamp is taken to be {}.", light_words(settings_.light).whole));
    } catch (const InputError& error) {
        say(error.what());
    }
    changed_ = true;
    save();
}

void Bench::perform(Action action) {
    // The size of a step is a picture pixel in a hundred, so that a held key crosses the picture in seconds.
    const double step = newest_.frame ? std::max(1.0, newest_.frame->width / 200.0) : 1;
    const auto after = [this](bool done) {
        if (done) regions_changed();
    };
    const auto open_page = [this](Page page) { page_ = page_ == page ? Page::picture : page; };
    const auto mark = [&](Role role) {
        const BenchRegions& regions = editor_.regions();
        const bool there = (role == Role::original ? regions.original
                            : role == Role::repair ? regions.repair
                                                   : regions.card)
                               .has_value();
        page_ = Page::picture;
        mode_ = PictureMode::whole;
        lamp_seen_ = true;
        editor_.select(role);
        after(!there && role != Role::card);
    };
    switch (action) {
        case Action::take_reading:
            return take_reading();
        case Action::take_after:
            return take_reading(ReadingRole::after);
        case Action::show_jobs:
            return open_jobs();
        case Action::record_coat:
            return open_coat();
        case Action::show_plan:
            return open_plan();
        case Action::show_board:
            return open_board();
        case Action::undo:
            return undo();
        case Action::select_original:
            return mark(Role::original);
        case Action::select_repair:
            return mark(Role::repair);
        case Action::next_shape:
            return editor_.next_shape();
        case Action::link_regions:
            editor_.toggle_linked();
            say(editor_.linked() ? "Linked: the two regions move together." : "Each region moves by itself.");
            return;
        case Action::finish: {
            const bool drawing = !editor_.unfinished().empty();
            lamp_seen_ = lamp_seen_ || !drawing;
            editor_.finish_polygon();
            return after(drawing);
        }
        case Action::step_back:
            return step_back();
        case Action::move_left:
            return after(editor_.nudge(-step, 0));
        case Action::move_right:
            return after(editor_.nudge(step, 0));
        case Action::move_up:
            return after(editor_.nudge(0, -step));
        case Action::move_down:
            return after(editor_.nudge(0, step));
        case Action::grow:
            return after(editor_.grow(1.1));
        case Action::shrink:
            return after(editor_.grow(1 / 1.1));
        case Action::next_view:
            page_ = Page::picture;
            mode_ = next(mode_);
            return ask_for_before();
        case Action::next_overlay:
            page_ = Page::picture;
            overlay_ = next(overlay_);
            return;
        case Action::earlier_reading:
            return choose_before(-1);
        case Action::later_reading:
            return choose_before(1);
        case Action::mark_card:
            return mark(Role::card);
        case Action::remove_mark:
            return after(editor_.remove());
        case Action::average_frames:
            toggle(&Settings::average, "Frames are averaged while nothing moves.",
                   "Each frame is read by itself.");
            changed_ = true;
            return;
        case Action::tick_on_reading:
            toggle(&Settings::tick, "A tick sounds when a reading is kept.", "No sound any more.");
            return;
        case Action::next_light:
            return go_to_next_light();
        case Action::next_colourants:
            settings_.colourants = next(settings_.colourants);
            say(fmt::format("The repair's colourants: {}.", colourants_help(settings_.colourants)));
            changed_ = true;
            return save();
        case Action::second_light:
            return go_on_with_second_light();
        case Action::watch_drying:
            return watch_or_leave_drying();
        case Action::next_drying_kind:
            return go_to_next_drying_kind();
        case Action::new_piece:
            return start_piece();
        case Action::lock_camera:
            lamp_seen_ = true;
            return lock_camera();
        case Action::next_source:
            return next_source();
        case Action::next_lamp:
        case Action::next_coat:
        case Action::next_tilt:
        case Action::wet_or_dry:
        case Action::next_fault:
            return turn_practice(action);
        case Action::show_keys:
            return open_page(Page::keys);
        case Action::show_warnings:
            return open_page(Page::warnings);
        case Action::next_theme:
            settings_.theme = settings_.theme == ThemeName::light ? ThemeName::dark : ThemeName::light;
            return save();
        case Action::larger_text:
            return scale_text(text_step);
        case Action::smaller_text:
            return scale_text(1 / text_step);
        case Action::quit:
            quitting_ = true;
            return;
        case Action::zoom_in:
        case Action::zoom_out:
        case Action::fit_picture:
        case Action::actual_size:
            return;  // the picture's view does these
    }
}

}  // namespace tonemend
