#include "advise/model/wide_channels.h"

#include <algorithm>

#include "colour/matrix3.h"
#include "colour/rgb_space.h"

namespace tonemend {
namespace {

struct ChannelMatrices {
    Matrix3 to_xyz = rgb_to_xyz_d50(romm_rgb);
    Matrix3 from_xyz = inverse(to_xyz);
};

const ChannelMatrices& channel_matrices() {
    static const ChannelMatrices matrices;
    return matrices;
}

}  // namespace

WideChannels to_channels(const Lab& lab) {
    const XYZ xyz = to_xyz(lab, d50_icc);
    WideChannels channels = channel_matrices().from_xyz * Vector3{xyz.X, xyz.Y, xyz.Z};
    for (double& channel : channels) channel = std::clamp(channel, 0.002, 0.995);
    return channels;
}

Lab to_lab(const WideChannels& channels) {
    const Vector3 xyz = channel_matrices().to_xyz * channels;
    return to_lab(XYZ{xyz[0], xyz[1], xyz[2]}, d50_icc);
}

}  // namespace tonemend
