#pragma once

#include <cstdint>
#include <random>

#include <opencv2/core.hpp>

#include "calibrate/card/card_frame.h"
#include "calibrate/card/find_card.h"
#include "colour/matrix3.h"
#include "picture/frame.h"

namespace tonemend::testing {

/// Something flat and printed: float reflectances on a grid of `pixels_per_mm`.
struct PrintedSheet {
    cv::Mat reflectance;
    double pixels_per_mm = 4;  ///< all edges of the markers fall on this grid
};

/// How a sheet is seen.
struct View {
    Matrix3 sheet_to_picture{};
    double tilt_degrees = 0;
    double blur_sigma = 0;      ///< picture pixels
    double light_fall_off = 0;  ///< darkest over brightest corner is 1 − this
    double light_direction = 0;
    double noise = 0;     ///< standard deviation in 8-bit code values
    double exposure = 1;  ///< linear light of a reflectance of 1
};

inline constexpr int scene_width = 1600;
inline constexpr int scene_height = 1200;

/// The sheet as it prints, with a six-step card behind its window.
PrintedSheet print_card_frame(const CardFrame& frame);
/// `sheet` (its markers at least) wholly in the picture: any rotation, tilt to 35°, blur to 2 px, light to 30
/// % uneven, the window from 12 to 60 % of the picture's width where that fits.
View choose_view(const CardFrame& frame, std::mt19937& random);
/// Streaks along one direction, as of long grain.
cv::Mat draw_wood(std::mt19937& random);
/// Lays the sheet on the background (linear reflectances) and takes the picture, sRGB-encoded, 8 bits.
Frame take_picture(const cv::Mat& background, const PrintedSheet* sheet, const View& view,
                   std::mt19937& random);
/// Where the window truly is.
Quad true_window(const CardFrame& frame, const View& view);
/// Root mean square distance over the four corners.
double corner_error(const Quad& found, const Quad& truth);

double uniform(std::mt19937& random, double low, double high);

}  // namespace tonemend::testing
