#pragma once

namespace tonemend {

/// What keys mean while text is typed.
enum class DeskKey {
    earlier,  ///< ↑
    later,    ///< ↓
    left,
    right,
    enter,
    rub_out,
    leave,  ///< Esc
    start,  ///< Ctrl N
    add,    ///< Ctrl A
    close,  ///< Ctrl D
    copy,   ///< Ctrl R
    undo,   ///< Ctrl Z
};

}  // namespace tonemend
