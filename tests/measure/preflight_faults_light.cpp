#include "calibrate/preflight/light_comparison.h"
#include "tests/measure/preflight_faults.h"

namespace tonemend::testing {
namespace {

// The second of two pictures of one sitting, with a change between them.
template <typename Change>
Fault fault_between(const char* code, const char* severity_text, Change change) {
    return {code, severity_text, [change](int i) {
                PracticeOptions before = faulty_options(i), after = before;
                before.white_balance = after.white_balance = WhiteBalance::daylight;
                change(before, after, i);
                const Shot first = take_shot(before, faulty_file(i)),
                           second = take_shot(after, faulty_file(i));
                return compare_light(light_of(first.frame, calibrate_shot(first)),
                                     light_of(second.frame, calibrate_shot(second)));
            }};
}

}  // namespace

std::vector<Fault> faults_of_light() {
    std::vector<Fault> faults;
    faults.push_back(fault("light-uneven", "3 to 25 % between the regions", [](PracticeOptions& o, int i) {
        o.fall_off = FallOff::linear;
        o.fall_off_percent = severity(i, 7, 55);
        o.fall_off_direction = (i % 2 == 0 ? 0 : 180) + severity(i * 7 % fault_pictures, -20, 20);
    }));
    faults.push_back(fault("light-mixed", "second lamp's share grows by 0.1 to 0.9 across the picture",
                           [](PracticeOptions& o, int i) {
                               o.lamp = i % 2 == 0 ? "CIE-D65" : "led:5500";
                               o.second_lamp = i % 4 < 2 ? "planckian:2856" : "led:3000";
                               o.second_lamp_share = 0.5;
                               o.faults.lamp_gradient = severity(i, 0.1, 0.9);
                           }));
    faults.push_back(fault("light-banded", "4 to 40 % peak to peak, bands 0.04 to 0.3 of the height apart",
                           [](PracticeOptions& o, int i) {
                               o.faults.banding_percent = severity(i, 4, 40);
                               o.faults.banding_period = severity(i * 7 % fault_pictures, 0.04, 0.3);
                               o.faults.banding_phase = severity(i * 13 % fault_pictures, 0, 350);
                           }));
    faults.push_back({"light-warm", "4100 down to 2300 K, raw", [](int i) {
                          PracticeOptions options = faulty_options(i);
                          options.lamp =
                              (i % 2 == 0 ? "planckian:" : "led:") +
                              std::to_string(std::lround(severity(i, 4100, i % 2 == 0 ? 2300 : 2600)));
                          return warnings_of(take_shot(options, FileKindOfShot::raw));
                      }});
    faults.push_back(fault("underexposed", "white at 0.2 down to 0.06",
                           [](PracticeOptions& o, int i) { o.exposure = severity(i, 0.2, 0.06); }));
    faults.push_back(fault("glare", "4 to 40 % of the lamp in a spot of the repair",
                           [](PracticeOptions& o, int i) { o.faults.glint_percent = severity(i, 4, 40); }));
    faults.push_back(fault_between("light-changed", "5000 K against 5400 to 7000 K, fixed white balance",
                                   [](PracticeOptions& before, PracticeOptions& after, int i) {
                                       before.lamp = "daylight:5000";
                                       after.lamp =
                                           "daylight:" + std::to_string(std::lround(severity(i, 5400, 7000)));
                                   }));
    faults.push_back(fault_between("exposure-differs", "by a factor of 1.3 to 4",
                                   [](PracticeOptions& before, PracticeOptions& after, int i) {
                                       const double factor = severity(i, 1.3, 4);
                                       before.exposure = 0.9;
                                       after.exposure = 0.9 / factor;
                                       if (i % 2 == 1) std::swap(before.exposure, after.exposure);
                                   }));
    return faults;
}

}  // namespace tonemend::testing
