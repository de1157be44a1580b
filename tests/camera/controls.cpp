#include <map>
#include <set>

#include "camera/hold_controls.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

// A camera as drivers are: it may ignore, forget or lack a control.
class FakeCamera : public CameraControls {
  public:
    std::map<TonemendVideoControl, double> values;
    std::set<TonemendVideoControl> ignored;
    double jump = 0;  // added to exposure when its automatic is switched off

    std::optional<double> read(TonemendVideoControl control) override {
        const auto found = values.find(control);
        return found == values.end() ? std::nullopt : std::optional(found->second);
    }
    bool write(TonemendVideoControl control, double value) override {
        if (!values.contains(control)) return false;
        if (ignored.contains(control)) return true;
        values[control] = value;
        if (control == tonemend_video_exposure_automatic && value == 0)
            values[tonemend_video_exposure] += jump;
        return true;
    }
};

FakeCamera full_camera() {
    FakeCamera camera;
    camera.values = {{tonemend_video_exposure_automatic, 1},
                     {tonemend_video_exposure, 156},
                     {tonemend_video_gain, 40},
                     {tonemend_video_white_balance_automatic, 1},
                     {tonemend_video_white_balance_temperature, 4600},
                     {tonemend_video_focus_automatic, 1},
                     {tonemend_video_focus, 30}};
    return camera;
}

}  // namespace

// Set, read back, say what was refused: common practice, no source.

TEST_CASE("A willing camera holds all four controls where they were") {
    FakeCamera camera = full_camera();
    camera.jump = 100;
    const auto outcomes = hold_controls(camera);
    REQUIRE(outcomes.size() == 4);
    for (const ControlOutcome& outcome : outcomes) {
        INFO(outcome.control << ": " << outcome.text);
        CHECK(outcome.held);
    }
    CHECK(outcomes[0].text == "156");
    CHECK(outcomes[2].text == "4600 K");
    CHECK(camera.values[tonemend_video_exposure_automatic] == 0);
    CHECK(camera.values[tonemend_video_exposure] == 156);
}

TEST_CASE("What a camera silently ignores is found and told with a cure") {
    FakeCamera camera = full_camera();
    camera.ignored = {tonemend_video_white_balance_automatic, tonemend_video_exposure};
    camera.jump = 100;
    const auto outcomes = hold_controls(camera);
    CHECK_FALSE(outcomes[0].held);
    CHECK_THAT(outcomes[0].text, contains("from 156 to 256; "));
    CHECK(outcomes[1].held);
    CHECK_FALSE(outcomes[2].held);
    CHECK_THAT(outcomes[2].text, contains("stays automatic; keep the card in the picture"));
}

TEST_CASE("A camera without controls refuses all but its fixed focus") {
    FakeCamera camera;
    const auto outcomes = hold_controls(camera);
    REQUIRE(outcomes.size() == 4);
    CHECK_FALSE(outcomes[0].held);
    CHECK_FALSE(outcomes[1].held);
    CHECK_FALSE(outcomes[2].held);
    CHECK(outcomes[3].held);
    CHECK(outcomes[3].text == "fixed by the lens");
}
