#include "calibrate/card/homography.h"

#include <cmath>

#include "tests/catch.h"

using namespace tonemend;

TEST_CASE(
    "The unit square's corners go to the quad's corners in order, the diagonals' crossing to their "
    "crossing") {
    const Quad quad{Point{10, 20}, Point{110, 30}, Point{120, 140}, Point{5, 100}};
    const Matrix3 h = unit_square_to_quad(quad);
    const Quad square{Point{0, 0}, Point{1, 0}, Point{1, 1}, Point{0, 1}};
    for (std::size_t i = 0; i < 4; ++i) {
        const Point mapped = map_point(h, square[i]);
        CHECK(mapped.x == Approx(quad[i].x));
        CHECK(mapped.y == Approx(quad[i].y));
    }
    // A projective map keeps straight lines straight: the centre must lie on both of the quad's diagonals.
    const Point centre = map_point(h, {0.5, 0.5});
    const auto off_line = [&](const Point& p, const Point& q) {
        return (q.x - p.x) * (centre.y - p.y) - (q.y - p.y) * (centre.x - p.x);
    };
    CHECK(off_line(quad[0], quad[2]) == Approx(0).margin(1e-9));
    CHECK(off_line(quad[1], quad[3]) == Approx(0).margin(1e-9));
}
