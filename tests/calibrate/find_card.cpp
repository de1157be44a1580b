#include "calibrate/card/find_card.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <iostream>

#include <opencv2/imgproc.hpp>

#include "find_card_scene.h"
#include "tests/catch.h"
#include "tests/support/quantile.h"
#include "tests/support/study_size.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

struct Tally {
    int pictures = 0, found = 0;
    std::vector<double> errors, tilt_errors, window_shares;
};

Tally find_in_pictures(int count, unsigned seed) {
    Tally tally;
    std::vector<PrintedSheet> sheets;
    for (const CardFrame& frame : card_frames()) sheets.push_back(print_card_frame(frame));
    for (int i = 0; i < count; ++i) {
        std::mt19937 random(seed + static_cast<unsigned>(i));
        const std::size_t size = random() % sheets.size();
        const CardFrame& frame = card_frames()[size];
        const View view = choose_view(frame, random);
        const Frame picture = take_picture(draw_wood(random), &sheets[size], view, random);
        const auto found = find_card(picture);
        ++tally.pictures;
        const Quad truth = true_window(frame, view);
        if (!found) {
            std::cout << "card frame: seed " << seed + static_cast<unsigned>(i)
                      << " not found: " << frame.name << ", tilt " << view.tilt_degrees << ", blur "
                      << view.blur_sigma << ", noise " << view.noise << ", window "
                      << std::hypot(truth[1].x - truth[0].x, truth[1].y - truth[0].y) << " px, exposure "
                      << view.exposure << "\n";
            continue;
        }
        CHECK(found->frame.first_id == frame.first_id);
        ++tally.found;
        tally.errors.push_back(corner_error(found->window, truth));
        tally.tilt_errors.push_back(std::abs(found->tilt_degrees - view.tilt_degrees));
        tally.window_shares.push_back(std::hypot(truth[1].x - truth[0].x, truth[1].y - truth[0].y) /
                                      scene_width);
    }
    std::cout << "card frame: found " << tally.found << " of " << tally.pictures << "; corner error median "
              << quantile(tally.errors, 0.5) << " px, 95 % " << quantile(tally.errors, 0.95) << " px, worst "
              << quantile(tally.errors, 1) << " px; tilt estimate off by "
              << quantile(tally.tilt_errors, 0.95) << " degrees at 95 %; window "
              << 100 * quantile(tally.window_shares, 0) << " to " << 100 * quantile(tally.window_shares, 1)
              << " % of the width\n";
    return tally;
}

}  // namespace

// Bounds: the project's own requirement (99 %, 0.5 px), tightened to what is measured with a pinhole camera
// and flat paper; no outside source.
TEST_CASE("the card frame is found at any rotation, tilted, blurred and unevenly lit") {
    const Tally tally = find_in_pictures(20, 1000);
    CHECK(tally.found == 20);
    CHECK(quantile(tally.errors, 0.5) < 0.02);
    CHECK(quantile(tally.errors, 1) < 0.1);
}

TEST_CASE("the card frame is found in at least 99 % of many pictures, half of them to 0.02 px",
          "[.shown][frames]") {
    const Tally tally = find_in_pictures(study_size(500), 5000);
    CHECK(tally.found >= study_size(500) * 99 / 100);
    CHECK(quantile(tally.errors, 0.5) < 0.02);
    CHECK(quantile(tally.errors, 0.95) < 0.06);
}

TEST_CASE("finding the card in twelve megapixels is timed", "[.shown][frames]") {
    std::mt19937 random(7);
    const CardFrame& frame = card_frames()[1];
    const PrintedSheet sheet = print_card_frame(frame);
    View view = choose_view(frame, random);
    const Frame small = take_picture(draw_wood(random), &sheet, view, random);
    const cv::Mat source(small.height, small.width, CV_8UC3, const_cast<std::byte*>(small.samples.data()));
    Frame large = small;
    large.width = 4000;
    large.height = 3000;
    large.samples.resize(std::size_t{3} * 4000 * 3000);
    cv::Mat target(large.height, large.width, CV_8UC3, large.samples.data());
    cv::resize(source, target, target.size(), 0, 0, cv::INTER_CUBIC);
    const auto time = [&](const Frame& picture) {
        double best = 1e9;
        for (int i = 0; i < 5; ++i) {
            const auto start = std::chrono::steady_clock::now();
            const auto found = find_card(picture);
            best = std::min(
                best,
                std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
        }
        return best;
    };
    REQUIRE(find_card(large));
    const double with = time(large);
    target.setTo(cv::Scalar(90, 120, 150));
    const double without = time(large);
    std::cout << "find_card on 4000 x 3000: " << with << " ms, on a plain picture without a card " << without
              << " ms\n";
    CHECK(with < 100);
}
