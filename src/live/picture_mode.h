#pragma once

#include <string_view>

namespace tonemend {

/// How the picture is shown.
enum class PictureMode {
    whole,       ///< all of it, where regions are marked
    pair,        ///< original beside repair, at equal scale
    wipe,        ///< a kept reading's picture left of an edge that can be moved, the present one right of it
    before_now,  ///< the two beside each other
};

/// "whole", "pair", "wipe", "before and now".
std::string_view name(PictureMode mode);
/// The one after it, round and round.
PictureMode next(PictureMode mode);

}  // namespace tonemend
