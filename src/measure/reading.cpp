#include "measure/reading.h"

#include <algorithm>

#include "colour/difference.h"
#include "measure/glare.h"
#include "measure/region_pixels.h"

namespace tonemend {
namespace {

Lab lab_of(const Calibration& calibration, const Vector3& rgb) { return to_lab(calibration.to_xyz(rgb), d50_icc); }

struct Sum {
    double count = 0;
    Vector3 rgb{};

    void add(const Sum& other) {
        count += other.count;
        for (std::size_t c = 0; c < 3; ++c) rgb[c] += other.rgb[c];
    }
    Vector3 mean() const { return {rgb[0] / count, rgb[1] / count, rgb[2] / count}; }
};

// Cuts the region across its longer side so that each half holds half of its pixels, and compares the halves.
double blank_reading(const RegionPixels& pixels, const Calibration& calibration) {
    const PixelRect& window = pixels.picture.window;
    const bool by_columns = window.width >= window.height;
    std::vector<Sum> lines(static_cast<std::size_t>(by_columns ? window.width : window.height));
    for_each_used(pixels, [&](int column, int row, const float* rgb) {
        Sum& line = lines[static_cast<std::size_t>(by_columns ? column : row)];
        line.count += 1;
        for (std::size_t c = 0; c < 3; ++c) line.rgb[c] += static_cast<double>(rgb[c]);
    });
    Sum first, second;
    for (const Sum& line : lines) {
        (first.count * 2 < static_cast<double>(pixels.used) ? first : second).add(line);
    }
    if (first.count == 0 || second.count == 0) return 0;
    return ciede2000(lab_of(calibration, first.mean()), lab_of(calibration, second.mean())).value;
}

Point centre_of(const RegionPixels& pixels) {
    double x = 0, y = 0;
    for_each_used(pixels, [&](int column, int row, const float*) { x += column + 0.5, y += row + 0.5; });
    const double n = static_cast<double>(pixels.used);
    return {pixels.picture.window.x + x / n, pixels.picture.window.y + y / n};
}

}  // namespace

Reading read_region(const Frame& frame, const Calibration& calibration, const Region& region, const std::string& role) {
    RegionPixels pixels = collect_pixels(frame, calibration, region, role);
    mark_glare(pixels);
    Reading reading;
    reading.region = region;
    reading.sampled = sample_mean(pixels);
    reading.lab = lab_of(calibration, reading.sampled.mean);
    const GroundAndFigure wood = split_ground_and_figure(pixels, reading.sampled.effective_samples);
    reading.figure_share = wood.figure_share;
    reading.ground = wood.figured() ? lab_of(calibration, wood.ground) : reading.lab;
    reading.figure = wood.figured() ? lab_of(calibration, wood.figure) : reading.lab;
    reading.blank_de2000 = blank_reading(pixels, calibration);
    reading.pixels = pixels.used;
    reading.rejected_clipped = pixels.clipped;
    reading.rejected_glare = pixels.glare;
    reading.centre = centre_of(pixels);
    return reading;
}

}  // namespace tonemend
