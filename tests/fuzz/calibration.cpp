// Calibration files: JSON with an ICC profile in it.
#include "calibrate/keep/calibration_file.h"

#include <cmath>
#include <filesystem>

#include "calibrate/model/characterisation.h"
#include "picture/input_error.h"
#include "target.h"
#include "tests/support/painted_frame.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

void check_kept(const KeptCalibration& kept) {
    for (const double seen : {0.01, 0.2, 0.7})
        for (const ToneCurve& curve : kept.fit.curves)
            require_promise(!std::isnan(curve(seen)), "a curve leads to a number");
    const XYZ white = kept.fit.characterisation.model.to_xyz({1, 1, 1});
    require_promise(std::abs(white.Y - 1) < 0.05, "white is seen as white");
    for (const PatchReading& reading : kept.fit.patches)
        for (const double value : reading.mean) require_promise(std::isfinite(value), "a reading is finite");
    require_promise(kept.chart.points.empty() || kept.chart.known, "a chart knows what it is about");
    (void)judge_chart(kept.chart);
    const std::string text = calibration_text(kept);
    (void)parse_calibration(std::as_bytes(std::span(text)), "again");  // what was read can be kept and read
}

}  // namespace

std::vector<std::string> tonemend::testing::fuzz_seeds() {
    const std::filesystem::path data = std::filesystem::path(TONEMEND_SOURCE_DIR) / "tests/data";
    const Frame frame = paint_frame(240, 40, [](int x, int) { return Lab{20.0 + 12 * (x / 40), 0, 0}; });
    std::vector<double> steps;
    for (int i = 0; i < 6; ++i) steps.push_back(to_xyz(Lab{20.0 + 12 * i, 0, 0}, d50_icc).Y);
    KeptCalibration kept{"tonemend 0.1.0", "2026-11-25T10:09:00Z", frame, {}, {}, {}};
    kept.fit = calibrate_on_card(frame, neutral_card(steps), {{{0, 0}, {240, 0}, {240, 40}, {0, 40}}});
    kept.picture.samples.clear();
    kept.chart.known = Lab{50, 10, 20};
    for (int i = 0; i < 9; ++i)
        kept.chart.points.push_back({"2026-11-26T08:00:00Z", "check.png", {50 + 0.1 * (i % 3), 10, 20}});
    return {content_of(data / "calibration-1.json"), calibration_text(kept)};
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        check_kept(parse_calibration({reinterpret_cast<const std::byte*>(data), size}, "input"));
    } catch (const InputError& error) {
        const std::string text = error.what();
        require_promise(text.starts_with("input: "), "a refusal names its file");
        require_promise(text.find('\n') == text.npos, "a refusal is one line");
    }
    return 0;
}
