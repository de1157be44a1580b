#include "practice/faults.h"

#include "practice/require_range.h"

namespace tonemend {

void require_valid(const PracticeFaults& faults) {
    require_range("shadow in percent", faults.shadow_percent, 0, 95);
    require_range("shadow's share of the card", faults.shadow_share, 0, 1);
    require_range("shadow's angle", faults.shadow_angle, -360, 360);
    require_range("lamps' gradient", faults.lamp_gradient, 0, 1);
    require_range("banding in percent", faults.banding_percent, 0, 90);
    require_range("banding's period", faults.banding_period, 0.005, 1);
    require_range("banding's phase", faults.banding_phase, -360, 360);
    require_range("glint in percent", faults.glint_percent, 0, 100);
    require_range("card's size", faults.card_size, 0.05, 1);
    require_range("saturation", faults.saturation, 0, 2);
    require_range("hue twist", faults.hue_twist, -60, 60);
    require_range("tint in percent", faults.tint_percent, -30, 30);
    require_range("local tones", faults.local_tones, 0, 0.8);
    require_range("first JPEG quality", faults.first_jpeg_quality, 0, 100);
}

}  // namespace tonemend
