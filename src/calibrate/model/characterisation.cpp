#include "calibrate/model/characterisation.h"

#include "colour/rgb_space.h"

namespace tonemend {

std::vector<ModelChange> doubt_beside_white(double u) {
    const Matrix3 from_working = rgb_to_xyz_d50(romm_rgb);
    const Vector3 white{d50_icc.X, d50_icc.Y, d50_icc.Z};
    std::vector<ModelChange> doubt;
    for (std::size_t moved = 0; moved < 3; ++moved) {
        for (const std::size_t departure : {std::size_t{0}, std::size_t{2}}) {
            Matrix3 change;
            change.m[moved][departure] = u * white[moved] / white[departure];
            change.m[moved][1] = -u * white[moved];
            doubt.push_back({change * from_working, {}});
        }
    }
    return doubt;
}

}  // namespace tonemend
