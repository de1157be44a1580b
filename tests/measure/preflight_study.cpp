// What the preflight sees: for each code forty practice pictures that must raise it, and two hundred good
// pictures, a hundred pairs of which are two pictures of one sitting, that must raise nothing.
#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <future>
#include <map>
#include <set>

#include "calibrate/preflight/light_comparison.h"
#include "tests/catch.h"
#include "tests/measure/preflight_faults.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr int good_pictures = 200;

// Two at a time, each picture by itself.
template <typename Work>
void for_each_of(int count, Work work) {
    std::atomic<int> next = 0;
    const auto run = [&] {
        for (int i = next++; i < count; i = next++) work(i);
    };
    auto other = std::async(std::launch::async, run);
    run();
    other.get();
}

struct GoodPictures {
    std::map<std::string, int> raised;
    int unfit = 0;
    std::vector<std::string> texts;

    void add(const std::vector<Warning>& warnings, int picture) {
        std::set<std::string> codes;
        bool spoilt = false;
        for (const Warning& warning : warnings) {
            codes.insert(warning.code);
            spoilt |= warning.unfit;
            texts.push_back(fmt::format("{}: {}: {}", picture, warning.code, warning.text));
        }
        for (const std::string& code : codes) ++raised[code];
        unfit += spoilt ? 1 : 0;
    }
};

GoodPictures look_at_good_pictures() {
    std::vector<std::vector<Warning>> warnings(good_pictures);
    for_each_of(good_pictures / 2, [&](int pair) {
        std::vector<PictureLight> lights;
        std::vector<Shot> shots;
        for (const int k : {2 * pair, 2 * pair + 1}) {
            const auto number = static_cast<std::uint64_t>(k);
            shots.push_back(take_shot(good_options(number), file_kind(number)));
            warnings[static_cast<std::size_t>(k)] = warnings_of(shots.back());
        }
        if (shots[0].frame.facts.raw != shots[1].frame.facts.raw) return;
        for (const Shot& shot : shots) lights.push_back(light_of(shot.frame, calibrate_shot(shot)));
        for (const Warning& warning : compare_light(lights[0], lights[1]))
            warnings[static_cast<std::size_t>(2 * pair)].push_back(warning);
    });
    GoodPictures good;
    for (int i = 0; i < good_pictures; ++i) good.add(warnings[static_cast<std::size_t>(i)], i);
    return good;
}

int count_raised(const Fault& fault) {
    std::atomic<int> raised = 0;
    for_each_of(fault_pictures, [&](int i) {
        const std::vector<Warning> warnings = fault.show(i);
        const bool found = std::any_of(warnings.begin(), warnings.end(),
                                       [&](const Warning& warning) { return warning.code == fault.code; });
        raised += found ? 1 : 0;
    });
    return raised;
}

}  // namespace

TEST_CASE("Each fault of a picture is warned of, and good pictures are not", "[.shown][preflight]") {
    const GoodPictures good = look_at_good_pictures();
    fmt::print("{} pictures a fault, {} good pictures\n", fault_pictures, good_pictures);
    fmt::print("{:<20} {:>8} {:>7}  {}\n", "code", "detected", "false", "severity");
    std::set<std::string> codes;
    for (const auto& faults : {faults_of_card(), faults_of_light(), faults_of_file(), faults_of_regions()}) {
        for (const Fault& fault : faults) {
            const auto raised = good.raised.find(fault.code);
            const double falsely = raised == good.raised.end() ? 0 : 100.0 * raised->second / good_pictures;
            const double detected = 100.0 * count_raised(fault) / fault_pictures;
            fmt::print("{:<20} {:>6.1f} % {:>5.1f} %  {}\n", fault.code, detected, falsely, fault.severity);
            std::fflush(stdout);
            INFO(fault.code);
            CHECK(detected >= 95);
            CHECK(falsely <= 2);
            codes.insert(fault.code);
        }
    }
    for (const auto& [code, count] : good.raised)
        if (!codes.contains(code))
            fmt::print("{:<20} {:>8} {:>5.1f} %\n", code, "", 100.0 * count / good_pictures);
    for (const std::string& text : good.texts) fmt::print("  good picture {}\n", text);
    fmt::print("unfit among the good pictures: {}\n", good.unfit);
    CHECK(good.unfit == 0);
}
