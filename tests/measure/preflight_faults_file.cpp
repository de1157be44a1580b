#include "picture/standard_encodings.h"
#include "tests/measure/preflight_faults.h"

namespace tonemend::testing {
namespace {

template <typename Change>
Fault fault(const char* code, const char* severity_text, FileKindOfShot kind, Change change) {
    return {code, severity_text, [change, kind](int i) {
                PracticeOptions options = faulty_options(i);
                change(options, i);
                return warnings_of(take_shot(options, kind));
            }};
}

}  // namespace

std::vector<Fault> faults_of_file() {
    using enum FileKindOfShot;
    std::vector<Fault> faults;
    faults.push_back({"profile-assumed", "no profile", [](int i) {
                          Shot shot = take_shot(faulty_options(i), faulty_file(i));
                          shot.frame.encoding = srgb_encoding(Provenance::assumed);
                          return warnings_of(shot);
                      }});
    faults.push_back({"flash-fired", "the file says so", [](int i) {
                          Shot shot = take_shot(faulty_options(i), faulty_file(i));
                          shot.frame.facts.flash_fired = true;
                          return warnings_of(shot);
                      }});
    faults.push_back(
        fault("picture-shrunk", "JPEG of 1230 down to 800 columns", jpeg, [](PracticeOptions& o, int i) {
            o.width = static_cast<int>(severity(i, 1230, 800)), o.height = o.width * 3 / 4;
        }));
    faults.push_back(fault("jpeg-strong", "quality 80 down to 30", jpeg, [](PracticeOptions& o, int i) {
        o.jpeg_quality = static_cast<int>(severity(i, 80, 30));
    }));
    for (const FileKindOfShot kind : {jpeg, sixteen_bits})
        faults.push_back(fault("jpeg-resaved",
                               kind == jpeg ? "quality 60 down to 20, then JPEG again"
                                            : "quality 60 down to 20, then without loss",
                               kind, [](PracticeOptions& o, int i) {
                                   o.faults.first_jpeg_quality = static_cast<int>(severity(i, 60, 20));
                               }));
    faults.push_back(
        fault("steps-tinted", "4 to 20 % of tint by lightness", sixteen_bits, [](PracticeOptions& o, int i) {
            o.faults.tint_percent = (i % 2 == 0 ? 1 : -1) * severity(i, 4, 20);
        }));
    faults.push_back(fault("steps-tinted", "the same as JPEG", jpeg, [](PracticeOptions& o, int i) {
        o.faults.tint_percent = (i % 2 == 0 ? 1 : -1) * severity(i, 4, 20);
    }));
    faults.push_back(fault("tones-local", "surroundings evened out by 0.1 to 0.35", jpeg,
                           [](PracticeOptions& o, int i) { o.faults.local_tones = severity(i, 0.1, 0.35); }));
    faults.push_back(fault("colours-styled",
                           "saturation 1.35 to 1.6 or 0.65 to 0.2, or hues turned by 12 to 24 degrees", jpeg,
                           [](PracticeOptions& o, int i) {
                               o.card = coloured_card(), o.lamp = "CIE-D50";
                               if (i % 3 == 0) o.faults.saturation = severity(i, 1.35, 1.6);
                               if (i % 3 == 1) o.faults.saturation = severity(i, 0.65, 0.2);
                               if (i % 3 == 2)
                                   o.faults.hue_twist = (i % 2 == 0 ? 1 : -1) * severity(i, 12, 24);
                           }));
    return faults;
}

}  // namespace tonemend::testing
