#include "calibrate/model/difference_metric.h"

#include <cmath>

#include "colour/difference.h"
#include "colour/lab.h"
#include "colour/matrix3.h"
#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("Near a colour the difference metric's length is CIEDE2000") {
    // ISO/CIE 11664-6, through colour/difference.h, which is tested on Sharma, Wu, Dalal's published pairs.
    const Lab colours[] = {{50, 0, 0}, {52, 14, 27}, {30, 9, 12}, {71, 6, 31}, {20, 4, 3}, {60, 40, -30}};
    const Vector3 directions[] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.5, 0.5, 0.5}, {0.4, -0.3, 0.6}};
    double worst = 0;
    for (const Lab& lab : colours) {
        const XYZ xyz = to_xyz(lab, d50_icc);
        const Eigen::Matrix3d metric = difference_metric(xyz);
        for (const Vector3& direction : directions) {
            const double step = 2e-4 * xyz.Y;
            const Vector3 d{step * direction[0], step * direction[1], step * direction[2]};
            const double by_form = (metric * Eigen::Vector3d{d[0], d[1], d[2]}).norm();
            const Lab there = to_lab({xyz.X + d[0], xyz.Y + d[1], xyz.Z + d[2]}, d50_icc);
            worst = std::max(worst, std::abs(by_form / ciede2000(lab, there).value - 1));
        }
    }
    INFO("worst relative departure " << worst);
    CHECK(worst < 0.005);
    CHECK(worst >
          0.00001);  // a linear form of a curved thing: a perfect fit would mean that nothing was compared
}
