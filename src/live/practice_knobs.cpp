#include "live/practice_knobs.h"

namespace tonemend {

PracticeSettings to_settings(const PracticeKnobs& knobs) {
    PracticeSettings settings;
    PracticeOptions& bench = settings.bench;
    bench.lamp = practice_lamps.at(knobs.lamp).lamp;
    bench.difference = practice_coats.at(knobs.coat);
    bench.tilt = practice_tilts.at(knobs.tilt);
    settings.repair_surface = knobs.wet ? Surface::wet : Surface::dry;
    if (knobs.camera == 1) bench.exposure = 1.6;
    if (knobs.camera == 2) bench.fall_off_percent = 35;
    if (knobs.camera == 3) bench.noise = 8;
    if (knobs.camera == 4) settings.flicker.swing_percent = 6;
    return settings;
}

}  // namespace tonemend
