#include "calibrate/preflight/local_tones.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "calibrate/card/find_card_grey.h"
#include "calibrate/flat/paper_fit.h"

namespace tonemend {
namespace {

constexpr double tones_worth_saying = 0.04, explained_enough = 0.3;
constexpr int small_width = 256;

// The picture's light, small; a display's tones are undone roughly, which is enough for what lies around.
cv::Mat small_light(const Frame& frame, int factor) {
    cv::Mat grey = reduced_grey(frame, factor), light;
    grey.convertTo(light, CV_32F, 1.0 / 255);
    cv::pow(light, 2.2, light);
    return light + 0.01;
}

double at(const cv::Mat& small, const Point& place, int factor) {
    const int column = std::clamp(static_cast<int>(place.x / factor), 0, small.cols - 1);
    const int row = std::clamp(static_cast<int>(place.y / factor), 0, small.rows - 1);
    return std::log(static_cast<double>(small.at<float>(row, column)));
}

}  // namespace

std::optional<LocalTones> find_local_tones(const Frame& frame, const std::vector<PaperSpot>& spots) {
    if (spots.size() < least_paper_spots) return std::nullopt;
    const double plain = fit_paper(spots, log_brightness).squares;
    if (plain <= 0) return std::nullopt;
    const int factor = std::max(1, frame.width / small_width);
    const cv::Mat light = small_light(frame, factor);
    std::optional<LocalTones> best;
    for (const int share : {64, 32, 16}) {
        cv::Mat around;
        cv::GaussianBlur(light, around, {}, static_cast<double>(light.cols) / share, 0, cv::BORDER_REPLICATE);
        const PaperFit fit = fit_paper(
            spots, log_brightness, {[&](const PaperSpot& spot) { return at(around, spot.place, factor); }});
        const LocalTones tones{-fit.coefficients[3], 1 - fit.squares / plain};
        if (!best || tones.explained > best->explained) best = tones;
    }
    return best;
}

std::optional<Warning> warn_of_local_tones(const Frame& frame, const std::vector<PaperSpot>& spots) {
    const auto tones = find_local_tones(frame, spots);
    if (!tones || tones->strength < tones_worth_saying || tones->explained < explained_enough)
        return std::nullopt;
    return Warning{
        "tones-local",
        fmt::format("the camera lightens the card's paper by {:.0f} % where its surroundings are half "
                    "as bright, so it may treat card and wood differently; switch off HDR, automatic "
                    "contrast and the like, or use raw",
                    100 * (std::exp2(tones->strength) - 1)),
        false};
}

}  // namespace tonemend
