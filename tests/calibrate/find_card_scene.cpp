#include "find_card_scene.h"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "calibrate/card/card_frame_cairo.h"
#include "calibrate/card/homography.h"
#include "colour/srgb_curve.h"

namespace tonemend::testing {
namespace {

constexpr double paper = 0.85;
constexpr double toner = 0.04;

class SrgbDecoding : public Decoding {
  public:
    bool separable() const override { return true; }
    void decode(const float* encoded, float* linear, std::size_t pixels) const override {
        for (std::size_t i = 0; i < 3 * pixels; ++i)
            linear[i] = static_cast<float>(decode_srgb(static_cast<double>(encoded[i])));
    }
};

void put_card_behind_window(PrintedSheet& sheet, const CardFrame& frame) {
    constexpr double steps[] = {0.90, 0.035, 0.34, 0.085, 0.55, 0.18};
    const double step_width = frame.window_width / 3;
    const double step_height = frame.window_height / 2;
    for (int i = 0; i < 6; ++i) {
        const auto px = [&](double mm) { return static_cast<int>(std::lround(mm * sheet.pixels_per_mm)); };
        const cv::Point from(px(frame.window_x + step_width * (i % 3)),
                             px(frame.window_y + step_height * (i / 3)));
        const cv::Point to(px(frame.window_x + step_width * (i % 3 + 1)),
                           px(frame.window_y + step_height * (i / 3 + 1)));
        sheet.reflectance(cv::Rect(from, to)).setTo(steps[i]);
    }
}

/// Nine rays a pixel.
void lay_on(cv::Mat& scene, const PrintedSheet& sheet, const Matrix3& sheet_to_picture) {
    const double width = sheet.reflectance.cols / sheet.pixels_per_mm;
    const double height = sheet.reflectance.rows / sheet.pixels_per_mm;
    double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
    for (const Point corner : {Point{0, 0}, Point{width, 0}, Point{width, height}, Point{0, height}}) {
        const Point p = map_point(sheet_to_picture, corner);
        left = std::min(left, p.x), right = std::max(right, p.x);
        top = std::min(top, p.y), bottom = std::max(bottom, p.y);
    }
    const int x0 = std::clamp(static_cast<int>(left), 0, scene.cols),
              x1 = std::clamp(static_cast<int>(right) + 1, 0, scene.cols);
    const int y0 = std::clamp(static_cast<int>(top), 0, scene.rows),
              y1 = std::clamp(static_cast<int>(bottom) + 1, 0, scene.rows);

    const Matrix3 to_grid =
        Matrix3::diagonal(sheet.pixels_per_mm, sheet.pixels_per_mm, 1) * inverse(sheet_to_picture);
    const auto& m = to_grid.m;
    constexpr int rays = 3;
    for (int y = y0; y < y1; ++y) {
        auto* row = scene.ptr<float>(y);
        for (int x = x0; x < x1; ++x) {
            float sum = 0;
            for (int ray = 0; ray < rays * rays; ++ray) {
                const double px = x + (ray % rays + 0.5) / rays, py = y + (ray / rays + 0.5) / rays;
                const double w = m[2][0] * px + m[2][1] * py + m[2][2];
                const double u = (m[0][0] * px + m[0][1] * py + m[0][2]) / w;
                const double v = (m[1][0] * px + m[1][1] * py + m[1][2]) / w;
                const bool hit = u >= 0 && v >= 0 && u < sheet.reflectance.cols && v < sheet.reflectance.rows;
                sum += hit ? sheet.reflectance.at<float>(static_cast<int>(v), static_cast<int>(u)) : row[x];
            }
            row[x] = sum / (rays * rays);
        }
    }
}

/// A pool of normal noise, drawn once: the generator would cost more than all the rest.
const std::vector<float>& noise_pool() {
    static const std::vector<float> pool = [] {
        std::vector<float> values(1 << 20);
        std::mt19937 random(20);
        std::normal_distribution<float> normal;
        for (float& value : values) value = normal(random);
        return values;
    }();
    return pool;
}

Frame encode(const cv::Mat& light, double noise, std::mt19937& random) {
    constexpr int levels = 4096;
    static const std::vector<float> table = [] {
        std::vector<float> values(levels);
        for (int i = 0; i < levels; ++i)
            values[static_cast<std::size_t>(i)] =
                static_cast<float>(255 * encode_srgb(i / double{levels - 1}));
        return values;
    }();
    const float tint[3] = {1.0F, 0.92F, 0.78F};
    const auto& pool = noise_pool();

    Frame frame;
    frame.name = "scene";
    frame.width = light.cols;
    frame.height = light.rows;
    frame.encoding.decoding = std::make_shared<SrgbDecoding>();
    frame.samples.resize(light.total() * 3);
    std::size_t out = 0;
    for (int y = 0; y < light.rows; ++y) {
        std::size_t next = random() % pool.size();
        for (int x = 0; x < light.cols; ++x)
            for (float channel : tint) {
                const float linear = std::clamp(light.at<float>(y, x) * channel, 0.0F, 1.0F);
                const float code = table[static_cast<std::size_t>(linear * (levels - 1) + 0.5F)] +
                                   static_cast<float>(noise) * pool[next++ % pool.size()];
                frame.samples[out++] = static_cast<std::byte>(std::clamp(code, 0.0F, 255.0F) + 0.5F);
            }
    }
    return frame;
}

/// A pinhole camera whose focal length is 1.2 long sides looks at a sheet turned about its own axis, tilted
/// about another, and shifted.
Matrix3 choose_pose(const CardFrame& frame, double share, View& view, std::mt19937& random) {
    const double focal = 1.2 * scene_width;
    const double distance = focal * frame.window_width / (share * scene_width);
    const double turn = uniform(random, 0, 2 * CV_PI);
    const double tilt = uniform(random, 0, 35 * CV_PI / 180);
    const double axis = uniform(random, 0, 2 * CV_PI);
    view.tilt_degrees = tilt * 180 / CV_PI;

    const double ax = std::cos(axis), ay = std::sin(axis), c = std::cos(tilt), s = std::sin(tilt);
    Matrix3 lean;
    lean.m = {{{c + ax * ax * (1 - c), ax * ay * (1 - c), ay * s},
               {ax * ay * (1 - c), c + ay * ay * (1 - c), -ax * s},
               {-ay * s, ax * s, c}}};
    Matrix3 spin;
    spin.m = {{{std::cos(turn), -std::sin(turn), 0}, {std::sin(turn), std::cos(turn), 0}, {0, 0, 1}}};
    const Matrix3 rotation = lean * spin;
    const double cx = frame.sheet_width / 2, cy = frame.sheet_height / 2;
    const double shift_x = uniform(random, -0.4, 0.4) * (1 - share) * distance * scene_width / focal;
    const double shift_y = uniform(random, -0.4, 0.4) * (1 - share) * distance * scene_height / focal;
    Matrix3 place;
    for (std::size_t row = 0; row < 3; ++row) {
        const auto& r = rotation.m[row];
        const double shift = row == 0 ? shift_x : row == 1 ? shift_y : distance;
        place.m[row] = {r[0], r[1], shift - r[0] * cx - r[1] * cy};
    }
    Matrix3 camera;
    camera.m = {{{focal, 0, scene_width / 2.0}, {0, focal, scene_height / 2.0}, {0, 0, 1}}};
    return camera * place;
}

bool markers_in_picture(const CardFrame& frame, const Matrix3& sheet_to_picture) {
    const double margin = frame.marker_side / 6;  // the quiet zone
    const Point first = marker_corner(frame, 0), last = marker_corner(frame, 2);
    const double x0 = first.x - margin, y0 = first.y - margin;
    const double x1 = last.x + frame.marker_side + margin, y1 = last.y + frame.marker_side + margin;
    const Quad corners{Point{x0, y0}, Point{x1, y0}, Point{x1, y1}, Point{x0, y1}};
    return std::all_of(corners.begin(), corners.end(), [&](const Point& corner) {
        const Point p = map_point(sheet_to_picture, corner);
        return p.x > 0 && p.y > 0 && p.x < scene_width && p.y < scene_height;
    });
}

}  // namespace

double uniform(std::mt19937& random, double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
}

PrintedSheet print_card_frame(const CardFrame& frame) {
    PrintedSheet sheet;
    const int width = static_cast<int>(frame.sheet_width * sheet.pixels_per_mm);
    const int height = static_cast<int>(frame.sheet_height * sheet.pixels_per_mm);
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    cairo_t* context = cairo_create(surface);
    cairo_scale(context, sheet.pixels_per_mm, sheet.pixels_per_mm);
    paint_card_frame(context, draw_card_frame(frame));
    cairo_surface_flush(surface);
    sheet.reflectance.create(height, width, CV_32FC1);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const int value =
                cairo_image_surface_get_data(surface)[y * cairo_image_surface_get_stride(surface) + 4 * x];
            sheet.reflectance.at<float>(y, x) = static_cast<float>(toner + (paper - toner) * value / 255);
        }
    cairo_destroy(context);
    cairo_surface_destroy(surface);
    put_card_behind_window(sheet, frame);
    return sheet;
}

View choose_view(const CardFrame& frame, std::mt19937& random) {
    View view;
    // Large shares fit at few rotations: each share gets many tries before another is drawn.
    int tries = 0;
    double share = 0;
    do {
        if (tries++ % 50 == 0) share = uniform(random, 0.12, 0.60);
        view.sheet_to_picture = choose_pose(frame, share, view, random);
    } while (!markers_in_picture(frame, view.sheet_to_picture));
    view.blur_sigma = uniform(random, 0, 2);
    view.light_fall_off = uniform(random, 0, 0.3);
    view.light_direction = uniform(random, 0, 2 * CV_PI);
    view.noise = uniform(random, 0.5, 4);
    view.exposure = uniform(random, 0.3, 1.1);
    return view;
}

cv::Mat draw_wood(std::mt19937& random) {
    cv::RNG noise(random());
    cv::Mat coarse(60, 8, CV_32FC1), fine(600, 20, CV_32FC1), wood, streaks;
    noise.fill(coarse, cv::RNG::NORMAL, uniform(random, 0.08, 0.5), uniform(random, 0.01, 0.08));
    noise.fill(fine, cv::RNG::NORMAL, 0, uniform(random, 0.01, 0.08));
    cv::resize(coarse, wood, {scene_width, scene_height}, 0, 0, cv::INTER_CUBIC);
    cv::resize(fine, streaks, {scene_width, scene_height}, 0, 0, cv::INTER_LINEAR);
    wood += streaks;
    if (random() % 2) {
        cv::Mat upright;
        cv::rotate(wood, upright, cv::ROTATE_90_CLOCKWISE);
        cv::resize(upright, wood, {scene_width, scene_height}, 0, 0, cv::INTER_LINEAR);
    }
    return cv::max(wood, 0.02);
}

Frame take_picture(const cv::Mat& background, const PrintedSheet* sheet, const View& view,
                   std::mt19937& random) {
    cv::Mat scene = background.clone();
    if (sheet) lay_on(scene, *sheet, view.sheet_to_picture);
    if (view.blur_sigma > 0.1) cv::GaussianBlur(scene, scene, {}, view.blur_sigma);
    const double dx = std::cos(view.light_direction), dy = std::sin(view.light_direction);
    const double reach = std::abs(dx) * scene.cols + std::abs(dy) * scene.rows;
    for (int y = 0; y < scene.rows; ++y)
        for (int x = 0; x < scene.cols; ++x) {
            const double t = ((x - scene.cols / 2.0) * dx + (y - scene.rows / 2.0) * dy) / reach + 0.5;
            scene.at<float>(y, x) *= static_cast<float>(view.exposure * (1 - view.light_fall_off * t));
        }
    return encode(scene, view.noise, random);
}

Quad true_window(const CardFrame& frame, const View& view) {
    Quad quad = window_quad(frame);
    for (Point& corner : quad) corner = map_point(view.sheet_to_picture, corner);
    return quad;
}

double corner_error(const Quad& found, const Quad& truth) {
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i)
        sum += std::pow(found[i].x - truth[i].x, 2) + std::pow(found[i].y - truth[i].y, 2);
    return std::sqrt(sum / 4);
}

}  // namespace tonemend::testing
