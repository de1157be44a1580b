#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace tonemend {

/// Everything a hand can ask for. Each has a key, printed on its control.
enum class Action {
    take_reading,
    take_after,
    undo,
    select_original,
    select_repair,
    next_shape,
    link_regions,
    finish,
    step_back,
    move_left,
    move_right,
    move_up,
    move_down,
    grow,
    shrink,
    zoom_in,
    zoom_out,
    fit_picture,
    actual_size,
    lock_camera,
    next_view,
    next_overlay,
    earlier_reading,
    later_reading,
    mark_card,
    remove_mark,
    next_source,
    average_frames,
    new_piece,
    show_jobs,
    record_coat,
    show_plan,
    show_board,
    second_light,
    watch_drying,
    next_drying_kind,
    tick_on_reading,
    next_light,
    next_colourants,
    next_lamp,
    next_coat,
    next_tilt,
    wet_or_dry,
    next_fault,
    show_keys,
    show_warnings,
    next_theme,
    larger_text,
    smaller_text,
    quit,
};

enum class Modifier { none, control, shift };

/// One key of the table. `key` is a GLFW key code for keys that print nothing, else the printed capital
/// letter, digit or sign as the person's own keyboard has it.
struct KeyBinding {
    Action action;
    int key;
    Modifier modifier;
};

/// What a key does; nothing for keys that mean nothing.
std::optional<Action> find_action(int key, Modifier modifier);

/// One line of the page of keys.
struct ActionHelp {
    Action action;
    std::string_view key;   ///< as printed on the control: "Space", "O", "F1"
    std::string_view word;  ///< "reading"
    std::string_view help;  ///< what it does, in a few words
};
const std::vector<ActionHelp>& action_help();
/// The key of `action` as printed on its control.
std::string_view key_name(Action action);

}  // namespace tonemend
