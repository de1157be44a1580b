#include "calibrate/preflight/jpeg_traces.h"

#include "practice/render.h"
#include "practice/write_practice.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

Frame wood_picture() {
    PracticeOptions options;
    options.seed = 6;
    options.width = 800, options.height = 600;
    return render(make_scene(options));
}

// The frame without its first columns and rows, as cropped.
Frame cropped(const Frame& frame, int left, int top) {
    Frame result = frame;
    result.width -= left, result.height -= top;
    const std::size_t pixel = 3 * frame.bytes_per_sample();
    result.samples.clear();
    for (int y = top; y < frame.height; ++y)
        result.samples.insert(result.samples.end(), frame.row(y) + static_cast<std::size_t>(left) * pixel,
                              frame.row(y) + static_cast<std::size_t>(frame.width) * pixel);
    return result;
}

}  // namespace

TEST_CASE("A strong JPEG is seen after it was saved again more finely, or cropped, with its own steps") {
    // ITU-T T.81, table K.1, as it is at quality 50: the coefficients looked at have 10 to 16, the two
    // coarsest of those that this wood is rich in 14 and 16.
    const Frame strong = saved_as_jpeg(wood_picture(), 50);
    for (const Frame& frame : {strong, saved_as_jpeg(strong, 95), cropped(strong, 3, 5)}) {
        const auto traces = find_jpeg_traces(frame);
        REQUIRE(traces);
        CHECK(traces->strength > 0.8);
        CHECK(traces->step >= 14);
        CHECK(traces->step <= 16);
    }
}

TEST_CASE("A picture that was never a strong JPEG shows no traces of one") {
    const Frame picture = wood_picture();
    for (const Frame& frame : {picture, saved_as_jpeg(picture, 95), saved_as_jpeg(picture, 90)}) {
        const auto traces = find_jpeg_traces(frame);
        REQUIRE(traces);
        CHECK(traces->strength < 0.4);
        CHECK_FALSE(warn_of_jpeg_traces(frame));
    }
}

TEST_CASE("Raw, float and averaged pictures are not searched for traces of JPEG") {
    Frame frame = wood_picture();
    frame.facts.raw = true;
    CHECK_FALSE(find_jpeg_traces(frame));
    frame.facts.raw = false, frame.facts.mean_of = 4;
    CHECK_FALSE(find_jpeg_traces(frame));
}
