#include "live/picture_mode.h"

namespace tonemend {

std::string_view name(PictureMode mode) {
    switch (mode) {
        case PictureMode::whole:
            return "whole";
        case PictureMode::pair:
            return "pair";
        case PictureMode::wipe:
            return "wipe";
        case PictureMode::before_now:
            return "before and now";
    }
    return "";
}

PictureMode next(PictureMode mode) {
    return mode == PictureMode::before_now ? PictureMode::whole
                                           : static_cast<PictureMode>(static_cast<int>(mode) + 1);
}

}  // namespace tonemend
