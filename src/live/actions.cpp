#include "live/actions.h"

#include <GLFW/glfw3.h>

#include <algorithm>

namespace tonemend {
namespace {

using enum Action;

// Presenters send Page Down and Page Up, and B or a full stop to blank a screen: those two do nothing here.
// Foot switches send Space or Page Down.
const std::vector<KeyBinding> bindings{
    {take_reading, ' ', Modifier::none},
    {take_reading, GLFW_KEY_SPACE, Modifier::none},
    {take_reading, GLFW_KEY_PAGE_DOWN, Modifier::none},
    {undo, 'Z', Modifier::none},
    {undo, 'Z', Modifier::control},
    {undo, GLFW_KEY_PAGE_UP, Modifier::none},
    {select_original, 'O', Modifier::none},
    {select_repair, 'R', Modifier::none},
    {next_shape, 'P', Modifier::none},
    {link_regions, 'K', Modifier::none},
    {finish, GLFW_KEY_ENTER, Modifier::none},
    {finish, GLFW_KEY_KP_ENTER, Modifier::none},
    {step_back, GLFW_KEY_ESCAPE, Modifier::none},
    {move_left, GLFW_KEY_LEFT, Modifier::none},
    {move_right, GLFW_KEY_RIGHT, Modifier::none},
    {move_up, GLFW_KEY_UP, Modifier::none},
    {move_down, GLFW_KEY_DOWN, Modifier::none},
    {grow, GLFW_KEY_UP, Modifier::shift},
    {shrink, GLFW_KEY_DOWN, Modifier::shift},
    {zoom_in, ']', Modifier::none},
    {zoom_in, 'X', Modifier::none},
    {zoom_out, '[', Modifier::none},
    {zoom_out, 'C', Modifier::none},
    {fit_picture, 'F', Modifier::none},
    {fit_picture, GLFW_KEY_HOME, Modifier::none},
    {actual_size, 'G', Modifier::none},
    {lock_camera, 'L', Modifier::none},
    {next_view, 'V', Modifier::none},
    {next_overlay, 'E', Modifier::none},
    {earlier_reading, 'H', Modifier::shift},
    {later_reading, 'H', Modifier::none},
    {mark_card, 'M', Modifier::none},
    {remove_mark, GLFW_KEY_DELETE, Modifier::none},
    {remove_mark, GLFW_KEY_BACKSPACE, Modifier::none},
    {next_source, 'S', Modifier::none},
    {average_frames, 'A', Modifier::none},
    {new_piece, 'N', Modifier::none},
    {show_jobs, GLFW_KEY_F2, Modifier::none},
    {record_coat, GLFW_KEY_F3, Modifier::none},
    {take_after, GLFW_KEY_F4, Modifier::none},
    {show_plan, GLFW_KEY_F5, Modifier::none},
    {show_board, GLFW_KEY_F6, Modifier::none},
    {second_light, 'J', Modifier::none},
    {watch_drying, 'Y', Modifier::none},
    {next_drying_kind, 'Y', Modifier::shift},
    {tick_on_reading, 'U', Modifier::none},
    {next_light, 'I', Modifier::none},
    {next_colourants, 'D', Modifier::none},
    {next_lamp, '1', Modifier::none},
    {next_coat, '2', Modifier::none},
    {next_tilt, '3', Modifier::none},
    {wet_or_dry, '4', Modifier::none},
    {next_fault, '5', Modifier::none},
    {show_keys, GLFW_KEY_F1, Modifier::none},
    {show_warnings, 'W', Modifier::none},
    {next_theme, 'T', Modifier::none},
    {larger_text, '+', Modifier::none},
    {larger_text, '+', Modifier::shift},
    {larger_text, '=', Modifier::none},
    {larger_text, '=', Modifier::shift},
    {larger_text, GLFW_KEY_KP_ADD, Modifier::none},
    {smaller_text, '-', Modifier::none},
    {smaller_text, GLFW_KEY_KP_SUBTRACT, Modifier::none},
    {quit, 'Q', Modifier::control},
};

const std::vector<ActionHelp> help{
    {take_reading, "Space", "reading", "kept at once; Page Down too"},
    {undo, "Z", "undo", "last mark or region; Page Up too"},
    {select_original, "O", "original", "drag an outline, or its corners"},
    {select_repair, "R", "repair", "likewise"},
    {next_shape, "P", "shape", "rectangle, or corner by corner"},
    {finish, "Enter", "close", "close the polygon"},
    {step_back, "Esc", "back", "leave a region or a page"},
    {link_regions, "K", "link", "move both regions together"},
    {move_left, "← → ↑ ↓", "move", "the region, else the picture"},
    {grow, "Shift ↑ ↓", "size", "the region larger or smaller"},
    {zoom_in, "X", "closer", "or the wheel; C: farther"},
    {fit_picture, "F", "fit", "the whole picture"},
    {actual_size, "G", "1:1", "a camera pixel a screen pixel"},
    {next_view, "V", "view", "whole, pair, wipe, before and now"},
    {next_overlay, "E", "overlay", "ΔE map, clipped, glare, light, figure, blend"},
    {later_reading, "H", "later", "reading held against now; Shift: earlier"},
    {mark_card, "M", "bare card", "no frame: click its four corners"},
    {remove_mark, "Delete", "remove", "the mark that is held"},
    {next_source, "S", "source", "next camera, or practice bench"},
    {lock_camera, "L", "lock", "hold the camera's settings still"},
    {next_light, "I", "light", "the lamp's kind, if you know it"},
    {next_colourants, "D", "colours", "the repair's: same, earth, other"},
    {average_frames, "A", "average", "of frames while nothing moves"},
    {show_jobs, "F2", "jobs", "find, start, close; where readings go"},
    {record_coat, "F3", "coat", "record what was put on"},
    {take_after, "F4", "after", "a reading after the work; the first is before"},
    {show_plan, "F5", "plan", "what to put on next; F6: sample board"},
    {new_piece, "N", "new piece", "of the same job; readings go to it"},
    {second_light, "J", "light two", "hold light one, change the lamp, again"},
    {watch_drying, "Y", "drying", "watch the repair dry; Shift: what dries"},
    {tick_on_reading, "U", "tick", "a sound when a reading is kept"},
    {next_lamp, "1", "lamp", "practice: another lamp"},
    {next_coat, "2", "coat", "practice: the repair's next coat"},
    {next_tilt, "3", "tilt", "practice: tilt the card"},
    {wet_or_dry, "4", "surface", "practice: the repair wet or dry"},
    {next_fault, "5", "fault", "practice: of camera or light"},
    {show_warnings, "W", "trust", "all that speaks against it"},
    {next_theme, "T", "theme", "light or dark surround"},
    {larger_text, "+", "larger", "type; −: smaller"},
    {show_keys, "F1", "keys", "this page"},
    {quit, "Ctrl Q", "leave", "everything is kept"},
};

}  // namespace

std::optional<Action> find_action(int key, Modifier modifier) {
    const auto found = std::find_if(bindings.begin(), bindings.end(), [&](const KeyBinding& binding) {
        return binding.key == key && binding.modifier == modifier;
    });
    return found == bindings.end() ? std::nullopt : std::optional(found->action);
}

const std::vector<ActionHelp>& action_help() {
    return help;
}

std::string_view key_name(Action action) {
    const auto found =
        std::find_if(help.begin(), help.end(), [&](const ActionHelp& line) { return line.action == action; });
    return found == help.end() ? "" : found->key;
}

}  // namespace tonemend
