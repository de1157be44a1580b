#include "practice/led_lamp.h"

namespace tonemend {

Bands led_lamp(double kelvin, const LedShape& shape) {
    return sample_bands(led_light(kelvin, shape));
}

}  // namespace tonemend
