#include "live/view_transform.h"

#include <algorithm>

namespace tonemend {
namespace {

constexpr double greatest_scale = 16;

}  // namespace

void ViewTransform::set(int picture_width, int picture_height, const Box& box) {
    const bool other_picture = picture_width != width_ || picture_height != height_;
    width_ = std::max(1, picture_width);
    height_ = std::max(1, picture_height);
    box_ = box;
    if (fitted_ || other_picture) {
        fit();
    } else {
        scale_ = std::max(scale_, fitted_scale());
        keep_in_box();
    }
}

void ViewTransform::fit() {
    fitted_ = true;
    scale_ = fitted_scale();
    centre_ = {0.5 * width_, 0.5 * height_};
}

void ViewTransform::actual_size() {
    scale_ = std::max(1.0, fitted_scale());
    fitted_ = scale_ <= fitted_scale();
    keep_in_box();
}

void ViewTransform::zoom(double factor, ScreenPoint at) {
    const Point under = to_picture(at);
    scale_ = std::clamp(scale_ * factor, fitted_scale(), std::max(greatest_scale, fitted_scale()));
    fitted_ = scale_ <= fitted_scale() * 1.0001;
    centre_ = {under.x - (at.x - box_.middle_x()) / scale_, under.y - (at.y - box_.middle_y()) / scale_};
    keep_in_box();
}

void ViewTransform::pan(float dx, float dy) {
    centre_.x -= dx / scale_;
    centre_.y -= dy / scale_;
    keep_in_box();
}

void ViewTransform::look_at(Point centre, double scale) {
    fitted_ = false;
    scale_ = std::min(scale, greatest_scale);
    centre_ = centre;
}

void ViewTransform::follow(const ViewTransform& other) {
    const double size = static_cast<double>(other.width_) / width_;
    fitted_ = other.fitted_;
    scale_ = other.scale_ * size;
    centre_ = {other.centre_.x / size, other.centre_.y / size};
}

ScreenPoint ViewTransform::to_screen(Point picture) const {
    return {box_.middle_x() + static_cast<float>((picture.x - centre_.x) * scale_),
            box_.middle_y() + static_cast<float>((picture.y - centre_.y) * scale_)};
}

Point ViewTransform::to_picture(ScreenPoint screen) const {
    return {centre_.x + (screen.x - box_.middle_x()) / scale_,
            centre_.y + (screen.y - box_.middle_y()) / scale_};
}

double ViewTransform::fitted_scale() const {
    const double across = box_.width / static_cast<double>(width_);
    const double down = box_.height / static_cast<double>(height_);
    return std::max(1e-4, std::min(across, down));
}

void ViewTransform::keep_in_box() {
    const auto keep = [this](double centre, double box, double picture) {
        const double half = 0.5 * box / scale_;
        return 2 * half >= picture ? 0.5 * picture : std::clamp(centre, half, picture - half);
    };
    centre_ = {keep(centre_.x, box_.width, width_), keep(centre_.y, box_.height, height_)};
}

}  // namespace tonemend
