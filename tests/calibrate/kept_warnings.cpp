// A kept characterisation in another picture. The codes and their limits are this program's own
// (calibrate/preflight/kept_warnings.h).
#include "calibrate/preflight/kept_warnings.h"

#include "kept_sample.h"
#include "picture/standard_encodings.h"
#include "tests/catch.h"
#include "tests/support/painted_frame.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::vector<Warning> warnings_of(const Frame& frame, const Calibration& calibration,
                                 const KeptCalibration& kept, const std::string& light = "") {
    CalibrationInputs inputs;
    inputs.kept = std::make_shared<const KeptCalibration>(kept);
    if (!light.empty()) inputs.light = parse_light(light);
    return warn_of_kept(frame, calibration, inputs);
}

std::vector<std::string> codes_of(const Frame& frame, const Calibration& calibration,
                                  const KeptCalibration& kept) {
    std::vector<std::string> codes;
    for (const Warning& warning : warnings_of(frame, calibration, kept)) codes.push_back(warning.code);
    return codes;
}

using WarningCodes = std::vector<std::string>;

}  // namespace

TEST_CASE("A kept characterisation takes the place of the card's own, and the card still gives the curves") {
    KeptCalibration kept = CalibratedScene().keep();
    kept.fit.characterisation.model = bent(kept.fit.characterisation.model);
    kept.fit.characterisation.contrast = 0.02;
    CalibrationInputs inputs;
    inputs.kept = std::make_shared<const KeptCalibration>(kept);
    const CalibratedScene plain(sample_options(4)), with(sample_options(4), inputs);
    CHECK_FALSE(with.calibration.characterisation.model.is_matrix());
    CHECK(with.calibration.characterisation.contrast == 0.02);
    CHECK(with.calibration.curves[1](0.3) == plain.calibration.curves[1](0.3));
    CHECK(with.calibration.warnings.size() == plain.calibration.warnings.size());
    CHECK_THAT(with.calibration.characterisation.description, contains("2026-11-25T10:09:00Z"));
}

TEST_CASE("What differs from the calibration's picture is warned of, and what is the same is not") {
    const CalibratedScene scene;
    const Frame& frame = scene.frame;
    const KeptCalibration kept = scene.keep();
    CHECK(codes_of(frame, scene.calibration, kept) == WarningCodes{});

    SECTION("another camera") {
        KeptCalibration other = kept;
        Frame named = frame;
        named.facts.camera = "Bench camera 2";
        CHECK(codes_of(named, scene.calibration, other) == WarningCodes{});  // nothing is known of the first
        other.picture.facts.camera = "Bench camera 1";
        CHECK(codes_of(named, scene.calibration, other) == WarningCodes{"calibration-other-camera"});
    }
    SECTION("another encoding") {
        KeptCalibration other = kept;
        other.picture.encoding = op_rgb_encoding("opRGB");
        CHECK(codes_of(frame, scene.calibration, other) == WarningCodes{"calibration-other-encoding"});
    }
    SECTION("another number of steps") {
        KeptCalibration other = kept;
        other.fit.curves[1] = ToneCurve({{0.5, 0.6, 0.001}});
        CHECK(codes_of(frame, scene.calibration, other) == WarningCodes{"calibration-other-steps"});
    }
    SECTION("another light, where the camera does not balance it away") {
        KeptCalibration other = kept;
        Calibration warm = scene.calibration;
        warm.white = {1.09850, 1.0, 0.35585};       // CIE A (CIE 15:2018, table of white points)
        other.fit.white = {0.95047, 1.0, 1.08883};  // CIE D65
        CHECK(codes_of(frame, warm, other) == WarningCodes{});
        Frame native = frame;
        native.encoding.camera_native = true;
        other.picture.encoding.camera_native = true;
        CHECK(codes_of(native, warm, other) == WarningCodes{"calibration-other-light"});
        warm.white = {0.9520, 1.0, 1.08};  // the same lamp a little warmer
        CHECK(codes_of(native, warm, other) == WarningCodes{});
    }
    SECTION("another light, where it is stated") {
        KeptCalibration other = kept;
        CHECK(warnings_of(frame, scene.calibration, other, "2700")
                  .empty());  // that of the calibration is not known
        other.fit.characterisation.light_kelvin = 5000;
        CHECK(warnings_of(frame, scene.calibration, other, "5100").empty());
        const auto warnings = warnings_of(frame, scene.calibration, other, "2700");
        REQUIRE(warnings.size() == 1);
        CHECK(warnings[0].code == "calibration-other-light");
    }
    SECTION("a flat field of pictures of another size") {
        KeptCalibration other = kept;
        other.fit.flat_field = FlatField{};
        other.fit.flat_field->width = frame.width + 1, other.fit.flat_field->height = frame.height;
        CHECK(codes_of(frame, scene.calibration, other) == WarningCodes{"calibration-other-size"});
        Calibration evened = scene.calibration;
        evened.flat_field = other.fit.flat_field;
        CHECK(codes_of(frame, evened, other) == WarningCodes{});
    }
    SECTION("a chart that has expired, or drifts") {
        KeptCalibration other = kept;
        other.chart.known = Lab{50, 10, 20};
        other.chart.points = {{"2026-11-26T08:00:00Z", "check.png", {51.5, 10, 20}}};
        CHECK(codes_of(frame, scene.calibration, other) == WarningCodes{"calibration-drifts"});
        other.chart.points[0].lab.L = 60;
        const auto warnings = warnings_of(frame, scene.calibration, other);
        REQUIRE(warnings.size() == 1);
        CHECK(warnings[0].code == "calibration-expired");
        CHECK(warnings[0].unfit);
    }
}
