#pragma once

#include <functional>
#include <string>
#include <vector>

#include "tests/measure/preflight_pictures.h"

namespace tonemend::testing {

/// How many pictures each fault is shown in.
inline constexpr int fault_pictures = 40;

/// A fault that must be warned of: its code, how bad it is made, and the warnings of picture `i` of
/// fault_pictures; severity rises evenly with i.
struct Fault {
    std::string code, severity;
    std::function<std::vector<Warning>(int i)> show;
};

std::vector<Fault> faults_of_light();
std::vector<Fault> faults_of_card();
std::vector<Fault> faults_of_file();
std::vector<Fault> faults_of_regions();

/// From `least` for picture 0 to `most` for the last one.
inline double severity(int i, double least, double most) {
    return least + (most - least) * i / (fault_pictures - 1);
}
/// The options of fault picture `i`, before its fault: a good picture in even light that serves no other
/// fault.
inline PracticeOptions faulty_options(int i) {
    PracticeOptions options = good_options(static_cast<std::uint64_t>(1000 + i));
    options.fall_off_percent = 0;
    options.width = 800, options.height = 600;
    options.pair = PairKind::same_colourant;
    return options;
}
/// Sixteen bits and JPEG by turns.
inline FileKindOfShot faulty_file(int i) {
    return i % 2 == 0 ? FileKindOfShot::sixteen_bits : FileKindOfShot::jpeg;
}
/// A fault that change(options, i) makes of a good picture.
template <typename Change>
Fault fault(const char* code, const char* severity_text, Change change) {
    return {code, severity_text, [change](int i) {
                PracticeOptions options = faulty_options(i);
                change(options, i);
                return warnings_of(take_shot(options, faulty_file(i)));
            }};
}

}  // namespace tonemend::testing
