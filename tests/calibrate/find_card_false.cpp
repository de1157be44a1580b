#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>
#include <numeric>

#include <opencv2/imgproc.hpp>

#include "calibrate/card/detect_markers.h"
#include "find_card_scene.h"
#include "tests/catch.h"
#include "tests/support/study_size.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr int cells = marker_cells_across;
using Pattern = std::vector<bool>;

/// A marker's pattern of `side` millimetres at (x, y).
void print_pattern(PrintedSheet& sheet, const Pattern& pattern, double x, double y, double side) {
    const double cell = side / cells * sheet.pixels_per_mm;
    for (int row = 0; row < cells; ++row)
        for (int column = 0; column < cells; ++column) {
            const cv::Point from(static_cast<int>(x * sheet.pixels_per_mm + column * cell),
                                 static_cast<int>(y * sheet.pixels_per_mm + row * cell));
            const cv::Point to(static_cast<int>(x * sheet.pixels_per_mm + (column + 1) * cell),
                               static_cast<int>(y * sheet.pixels_per_mm + (row + 1) * cell));
            const bool black = pattern[static_cast<std::size_t>(row * cells + column)];
            sheet.reflectance(cv::Rect(from, to)).setTo(black ? 0.04 : 0.85);
        }
}

PrintedSheet blank_sheet(const CardFrame& frame) {
    PrintedSheet sheet;
    sheet.reflectance =
        cv::Mat(static_cast<int>(frame.sheet_height * sheet.pixels_per_mm),
                static_cast<int>(frame.sheet_width * sheet.pixels_per_mm), CV_32FC1, cv::Scalar(0.85));
    return sheet;
}

Pattern turned(const Pattern& pattern) {
    Pattern result(pattern.size());
    for (int row = 0; row < cells; ++row)
        for (int column = 0; column < cells; ++column)
            result[static_cast<std::size_t>(column * cells + cells - 1 - row)] =
                pattern[static_cast<std::size_t>(row * cells + column)];
    return result;
}

Pattern random_pattern(std::mt19937& random) {
    Pattern pattern(cells * cells, true);
    for (int row = 1; row + 1 < cells; ++row)
        for (int column = 1; column + 1 < cells; ++column)
            pattern[static_cast<std::size_t>(row * cells + column)] = random() % 2;
    return pattern;
}

/// Our sheet's outline with the wrong markers in the corners. Kinds 0 to 2 are foreign, 3 to 6 ours in
/// disorder.
PrintedSheet print_wrong_sheet(const CardFrame& frame, int kind, std::mt19937& random) {
    PrintedSheet sheet = blank_sheet(frame);
    std::array<int, 4> order{0, 1, 2, 3};
    if (kind == 3) do
            std::shuffle(order.begin(), order.end(), random);
        while (std::is_sorted(order.begin(), order.end()));
    const auto first_other =
        card_frames()[0].first_id == frame.first_id ? card_frames()[1].first_id : card_frames()[0].first_id;
    const int odd_one = static_cast<int>(random() % 4);
    for (int place = 0; place < 4; ++place) {
        Pattern pattern = marker_pattern(frame.first_id + order[static_cast<std::size_t>(place)]);
        if (kind == 0) pattern = random_pattern(random);
        if (kind == 1) pattern = marker_pattern(static_cast<int>(random() % 200));
        if (kind == 2) pattern = marker_pattern(300 + place);
        if (kind == 4 && place == odd_one) pattern = turned(pattern);
        if (kind == 5 && place % 2) pattern = marker_pattern(first_other + place);
        if (kind == 6 && place >= 2) continue;
        const Point corner = marker_corner(frame, place);
        print_pattern(sheet, pattern, corner.x, corner.y, frame.marker_side);
    }
    return sheet;
}

PrintedSheet print_mirrored_sheet(const CardFrame& frame) {
    PrintedSheet sheet = print_card_frame(frame);
    cv::flip(sheet.reflectance, sheet.reflectance, 1);
    return sheet;
}

/// Our four markers on tiles that were thrown on the bench.
PrintedSheet print_scattered_markers(const CardFrame& frame, std::mt19937& random) {
    PrintedSheet sheet = blank_sheet(frame);
    const double free_x = frame.sheet_width - frame.marker_side,
                 free_y = frame.sheet_height - frame.marker_side;
    for (int index = 0; index < 4; ++index) {
        // One row, whose order is right but whose places are not.
        const double x = free_x * index / 3.0;
        const double y = uniform(random, 0.3, 0.7) * free_y;
        print_pattern(sheet, marker_pattern(frame.first_id + index), x, y,
                      0.75 * std::min(frame.marker_side, free_x / 3));
    }
    return sheet;
}

void draw_chequers(cv::Mat& scene, std::mt19937& random) {
    const int side = 12 + static_cast<int>(random() % 90);
    for (int y = 0; y < scene.rows; ++y)
        for (int x = 0; x < scene.cols; ++x) scene.at<float>(y, x) = (x / side + y / side) % 2 ? 0.8F : 0.05F;
}

void draw_rectangles(cv::Mat& scene, std::mt19937& random) {
    for (int i = 0; i < 150; ++i) {
        const cv::RotatedRect box(
            {static_cast<float>(uniform(random, 0, scene.cols)),
             static_cast<float>(uniform(random, 0, scene.rows))},
            {static_cast<float>(uniform(random, 10, 300)), static_cast<float>(uniform(random, 10, 300))},
            static_cast<float>(uniform(random, 0, 360)));
        std::array<cv::Point2f, 4> corners;
        box.points(corners.data());
        std::array<cv::Point, 4> whole;
        std::copy(corners.begin(), corners.end(), whole.begin());
        cv::fillConvexPoly(scene, whole.data(), 4, cv::Scalar(uniform(random, 0.02, 0.9)));
    }
}

void draw_writing(cv::Mat& scene, std::mt19937& random) {
    for (int line = 20; line < scene.rows; line += 40) {
        std::string text;
        for (int i = 0; i < 60; ++i) text += static_cast<char>('!' + random() % 90);
        cv::putText(scene, text, {10, line}, cv::FONT_HERSHEY_SIMPLEX, 1.1, cv::Scalar(0.04), 3);
    }
}

Frame take_cardless_picture(int index, std::mt19937& random) {
    const CardFrame& frame = card_frames()[random() % card_frames().size()];
    View view = choose_view(frame, random);
    view.blur_sigma /= 2;
    cv::Mat scene = draw_wood(random);
    switch (index % 13) {
        case 0:
            return take_picture(scene, nullptr, view, random);
        case 1:
            draw_chequers(scene, random);
            return take_picture(scene, nullptr, view, random);
        case 2:
            draw_rectangles(scene, random);
            return take_picture(scene, nullptr, view, random);
        case 3:
            draw_writing(scene, random);
            return take_picture(scene, nullptr, view, random);
        case 4: {
            const PrintedSheet sheet = print_mirrored_sheet(frame);
            return take_picture(scene, &sheet, view, random);
        }
        case 5: {
            const PrintedSheet sheet = print_scattered_markers(frame, random);
            return take_picture(scene, &sheet, view, random);
        }
        default: {
            const PrintedSheet sheet = print_wrong_sheet(frame, index % 13 - 6, random);
            return take_picture(scene, &sheet, view, random);
        }
    }
}

int count_false_finds(int count, unsigned seed) {
    int finds = 0;
    for (int i = 0; i < count; ++i) {
        std::mt19937 random(seed + static_cast<unsigned>(i));
        const bool found = find_card(take_cardless_picture(i, random)).has_value();
        if (found)
            std::cout << "card frame: false find, seed " << seed << " picture " << i << ", kind " << i % 13
                      << "\n";
        finds += found;
    }
    std::cout << "card frame: " << finds << " false finds in " << count << " pictures without it\n";
    return finds;
}

}  // namespace

TEST_CASE("no card is found where there is none, nor where its markers stand in the wrong places") {
    CHECK(count_false_finds(26, 300) == 0);
}

TEST_CASE("many pictures without the card frame give no false find", "[.shown][frames]") {
    CHECK(count_false_finds(study_size(200), 9000) == 0);
}

TEST_CASE("a card frame with one marker covered is still found, with two covered it is not") {
    const CardFrame& frame = card_frames()[1];
    std::mt19937 random(12);
    const View view = choose_view(frame, random);
    PrintedSheet sheet = print_card_frame(frame);
    const auto cover = [&](int index) {
        const Point corner = marker_corner(frame, index);
        const double scale = sheet.pixels_per_mm;
        const cv::Rect place(static_cast<int>(corner.x * scale), static_cast<int>(corner.y * scale),
                             static_cast<int>(frame.marker_side * scale / 2),
                             static_cast<int>(frame.marker_side * scale / 2));
        sheet.reflectance(place).setTo(0.3);
    };
    cover(2);
    const auto found = find_card(take_picture(draw_wood(random), &sheet, view, random));
    REQUIRE(found);
    CHECK(found->markers == 3);
    CHECK(corner_error(found->window, true_window(frame, view)) < 0.3);
    cover(0);
    CHECK_FALSE(find_card(take_picture(draw_wood(random), &sheet, view, random)));
}

TEST_CASE("a picture too small, black or without any contrast holds no card and is no error") {
    for (const auto& [width, height] :
         {std::pair(1, 1), std::pair(5000, 1), std::pair(47, 2000), std::pair(400, 300)}) {
        Frame picture;
        picture.width = width;
        picture.height = height;
        picture.samples.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
        CHECK_FALSE(find_card(picture));
        picture.type = SampleType::float32;
        picture.samples.assign(picture.samples.size() * 4, std::byte{0xFF});  // NaN
        CHECK_FALSE(find_card(picture));
    }
}
