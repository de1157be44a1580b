#include "live/picture_screen.h"

#include <epoxy/gl.h>

#include <cmath>
#include <cstring>
#include <string_view>

namespace tonemend {
namespace {

// Samples a side of a screen pixel where the processor draws: each costs as much as a pixel.
constexpr int samples_without_card = 2;

bool draws_on_processor() {
    const auto* renderer = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
    const std::string_view name = renderer == nullptr ? "" : renderer;
    return name.find("llvmpipe") != name.npos || name.find("softpipe") != name.npos;
}

}  // namespace

PictureScreen::PictureScreen() {
    if (draws_on_processor()) renderer_.limit_samples(samples_without_card);
}

void PictureScreen::set_display(const ScreenColours& colours, const Shade& surround) {
    renderer_.set_display(colours.table());
    renderer_.set_surround({surround.r / 255.0, surround.g / 255.0, surround.b / 255.0});
}

void PictureScreen::bring(Shown which, const std::shared_ptr<const Frame>& frame,
                          const std::shared_ptr<const Calibration>& calibration) {
    if (!frame) return;
    Part& part = which == Shown::now ? now_ : before_;
    const bool other_encoding = !part.frame || part.frame->encoding.decoding != frame->encoding.decoding;
    const bool other_calibration = part.calibration != calibration;
    const bool is_light = !frame->encoding.decoding->separable();
    if (other_encoding || other_calibration) part.picture.calibrate(frame->encoding, calibration);
    // Light is made of the codes by the calibration before it goes up.
    if (part.frame != frame || (is_light && other_calibration)) part.picture.load(*frame);
    part.frame = frame;
    part.calibration = calibration;
}

void PictureScreen::place(const PicturePlace& place, const OverlaySettings& overlay) {
    if (!place.box.empty() && !empty(place.which)) orders_.push_back({place, overlay});
}

void PictureScreen::draw(int framebuffer_height) {
    for (const Order& order : orders_) {
        const Box& box = order.place.box;
        PictureView view;
        view.left = static_cast<int>(std::lround(box.x));
        view.width = static_cast<int>(std::lround(box.right())) - view.left;
        const int top = static_cast<int>(std::lround(box.y));
        view.height = static_cast<int>(std::lround(box.bottom())) - top;
        view.bottom = framebuffer_height - top - view.height;
        view.origin_x = order.place.origin_x;
        view.origin_y = order.place.origin_y;
        view.texels_per_pixel = order.place.texels_per_pixel;
        renderer_.draw(part(order.place.which).picture, view, order.overlay);
    }
    if (!orders_.empty()) glDisable(GL_SCISSOR_TEST);
    orders_.clear();
}

}  // namespace tonemend
