// What a comparison is worth on the practice bench, where the truth is known: 200 pictures of the accuracy
// study's kind. Prints the errors and how often the truth lies inside the stated 95 % interval.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <vector>

#include "calibrate/card/find_card.h"
#include "colour/difference.h"
#include "measure/comparison.h"
#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "practice/render.h"
#include "practice/truth.h"
#include "tests/catch.h"
#include "tests/support/quantile.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/study_size.h"

using namespace tonemend;
using tonemend::testing::ScratchFolder;

namespace {

const int accuracy_seeds = study_size(200);

struct AccuracyStudy {
    std::vector<double> difference_error, absolute_error, u95, lab_u95;
    int difference_inside = 0, difference_inside_wood = 0, lab_inside = 0, lab_values = 0;
    int read = 0;

    void add(const Comparison& measured, const Truth& known) {
        ++read;
        const Difference& d = measured.difference;
        difference_error.push_back(std::abs(d.de2000 - known.de2000));
        difference_inside += std::abs(d.de2000 - known.de2000) <= d.de2000_u95 ? 1 : 0;
        difference_inside_wood += std::abs(d.de2000 - known.de2000_wood) <= d.de2000_u95 ? 1 : 0;
        u95.push_back(d.de2000_u95);
        add_region(measured.original, known.original);
        add_region(measured.repair, known.repair);
    }

    void add_region(const Reading& reading, const RegionTruth& truth) {
        absolute_error.push_back(ciede2000(truth.lab, reading.lab).value);
        const std::array<double, 3> miss{reading.lab.L - truth.lab_wood.L, reading.lab.a - truth.lab_wood.a,
                                         reading.lab.b - truth.lab_wood.b};
        for (std::size_t k = 0; k < 3; ++k) {
            lab_inside += std::abs(miss[k]) <= reading.lab_u95[k] ? 1 : 0;
            lab_u95.push_back(reading.lab_u95[k]);
            ++lab_values;
        }
    }
};

double percent(int part, int whole) {
    return 100.0 * part / whole;
}

void print(const char* title, const AccuracyStudy& study) {
    fmt::print("{}\n", title);
    fmt::print("  error of dE2000      median {:.3f}  95th percentile {:.3f}  worst {:.3f}\n",
               quantile(study.difference_error, 0.5), quantile(study.difference_error, 0.95),
               quantile(study.difference_error, 1));
    fmt::print("  error of Lab (dE2000) median {:.3f}  95th percentile {:.3f}\n",
               quantile(study.absolute_error, 0.5), quantile(study.absolute_error, 0.95));
    fmt::print("  stated 95 % half width of dE2000: median {:.3f}; of L*, a*, b*: median {:.3f}\n",
               quantile(study.u95, 0.5), quantile(study.lab_u95, 0.5));
    fmt::print(
        "  truth inside it: dE2000 of the wood {:.1f} %, of the region as pictured {:.1f} %; L*, a*, b* "
        "{:.1f} %\n",
        percent(study.difference_inside_wood, study.read), percent(study.difference_inside, study.read),
        percent(study.lab_inside, study.lab_values));
}

template <typename Reread>
AccuracyStudy run_study(int bits, const std::string& card_name, int pictures, Reread reread) {
    AccuracyStudy study;
    const Card card = read_card(locate_card(card_name));
    for (int seed = 1; seed <= pictures; ++seed) {
        PracticeOptions options = accuracy_study(static_cast<std::uint64_t>(seed));
        options.bits = bits;
        options.card = card_name;
        const PracticeScene scene = make_scene(options);
        const Frame frame = reread(render(scene));
        const auto found = find_card(frame);
        if (!found) continue;
        CalibrationInputs inputs;
        inputs.light = parse_light(options.lamp);
        inputs.colourants = RepairColourants::same;
        const Calibration calibration = calibrate_on_card(frame, card, *found, inputs);
        study.add(compare_regions(frame, calibration, rectangle(scene.original.region),
                                  rectangle(scene.repair.region)),
                  truth(scene));
    }
    return study;
}

}  // namespace

TEST_CASE("Sixteen-bit pictures: the colour difference is right and so is its interval",
          "[.shown][accuracy]") {
    const AccuracyStudy study =
        run_study(16, "six-step-card", accuracy_seeds, [](const Frame& frame) { return frame; });
    print(fmt::format(
              "{} practice pictures, 16 bits, six-step card, CIE D65, unknown tone curve, black to 1 %, "
              "same colourant",
              accuracy_seeds)
              .c_str(),
          study);
    CHECK(study.read >= accuracy_seeds - 2);
    CHECK(quantile(study.difference_error, 0.5) <= 0.08);
    CHECK(quantile(study.difference_error, 0.95) <= 0.35);
    CHECK(quantile(study.absolute_error, 0.5) <= 0.7);
    CHECK(percent(study.difference_inside_wood, study.read) >= 90);
    CHECK(percent(study.difference_inside_wood, study.read) <= 99);
    CHECK(percent(study.difference_inside, study.read) >= 90);
    CHECK(percent(study.lab_inside, study.lab_values) >= 90);
    CHECK(percent(study.lab_inside, study.lab_values) <= 99);
}

TEST_CASE("JPEG of quality 90: the colour difference is still right", "[.shown][accuracy]") {
    const ScratchFolder scratch;
    const std::filesystem::path path = scratch / "picture.jpg";
    const AccuracyStudy study = run_study(8, "six-step-card", accuracy_seeds, [&](const Frame& frame) {
        write_picture(frame, path, {.jpeg_quality = 90});
        return read_picture(path);
    });
    print("The same as JPEG, quality 90", study);
    CHECK(study.read >= accuracy_seeds - 2);
    CHECK(quantile(study.difference_error, 0.5) <= 0.2);
    CHECK(quantile(study.difference_error, 0.95) <= 0.8);
    CHECK(quantile(study.absolute_error, 0.5) <= 0.7);
    CHECK(percent(study.difference_inside_wood, study.read) >= 90);
    CHECK(percent(study.difference_inside_wood, study.read) <= 99);
}

TEST_CASE("Cards with one and three steps: larger errors, and intervals that say so", "[.shown][accuracy]") {
    for (const char* card : {"grey-card", "three-step-card"}) {
        const AccuracyStudy study =
            run_study(16, card, study_size(100), [](const Frame& frame) { return frame; });
        print(fmt::format("{} pictures of the same kind with the {}", study_size(100), card).c_str(), study);
        CHECK(percent(study.difference_inside_wood, study.read) >= 88);
        CHECK(percent(study.lab_inside, study.lab_values) >= 88);
    }
}
