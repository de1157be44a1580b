#include <fmt/format.h>

#include <algorithm>

#include "calibrate/card/card.h"
#include "calibrate/keep/calibration_file.h"
#include "live/bench.h"
#include "live/display_profile.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"

namespace tonemend {

void Bench::next_source() {
    const std::vector<std::string> choices = feed_->choices();
    const auto now = std::find(choices.begin(), choices.end(), feed_->source());
    const std::string& next = now == choices.end() || now + 1 == choices.end() ? choices.front() : *(now + 1);
    if (next == feed_->source()) {
        say("No camera found. Plug one in (or start with --source and a folder, file or address) and press "
            "S.");
        return;
    }
    try {
        feed_->open(next);
        remember_source();
        follow_source();
        say(fmt::format("Now looking at the {}.", feed_->name()));
    } catch (const InputError& error) {
        say(error.what());
    }
    save();
}

void Bench::turn_practice(Action action) {
    if (!feed_->practice()) {
        say("That is for the practice bench; press S for it.");
        return;
    }
    PracticeKnobs knobs = feed_->knobs();
    if (action == Action::next_lamp) knobs.lamp = (knobs.lamp + 1) % practice_lamps.size();
    if (action == Action::next_coat) knobs.coat = (knobs.coat + 1) % practice_coats.size();
    if (action == Action::next_tilt) knobs.tilt = (knobs.tilt + 1) % practice_tilts.size();
    if (action == Action::wet_or_dry) knobs.wet = !knobs.wet;
    if (action == Action::next_fault) knobs.camera = (knobs.camera + 1) % practice_cameras.size();
    feed_->turn(knobs);
}

void Bench::remember_source() {
    settings_.source =
        feed_->stands_in() ? "" : feed_->source();  // a camera plugged in later is found next time
}

void Bench::lock_camera() {
    feed_->request_lock();
    awaiting_lock_ = true;
    say("Asking the camera to hold still.");
}

void Bench::report_lock() {
    if (!awaiting_lock_ || !feed_->lock_answered()) return;
    awaiting_lock_ = false;
    std::string held, refused;
    for (const ControlOutcome& outcome : feed_->control_outcomes()) {
        std::string& list = outcome.held ? held : refused;
        list += (list.empty() ? "" : ", ") + outcome.control;
    }
    if (held.empty() && refused.empty()) {
        say("This source has no controls to hold: set its camera itself.");
        return;
    }
    say((held.empty() ? "" : "Held still: " + held + ". ") +
        (refused.empty() ? "" : "The camera refused: " + refused + "; set it on the camera itself."));
}

void Bench::take_calibration(const std::string& path) {
    if (path.empty() || path == "none") {
        settings_.calibration.clear();
        inputs_.kept.reset();
        return;
    }
    inputs_.kept = std::make_shared<const KeptCalibration>(read_calibration(path));
    settings_.calibration = path;
}

// Empty: not stated any more. Throws InputError and leaves it as it was.
void Bench::state_light(const std::string& light) {
    inputs_.light = light.empty() ? std::nullopt : std::optional(parse_light(light));
    settings_.light = light;
}

void Bench::accept_drop(const std::filesystem::path& path) {
    const std::string ending = file_ending(path);
    try {
        if (ending == ".txt" || ending == ".cgats") {
            const Card card = read_card(path);
            settings_.card = std::filesystem::absolute(path).string();
            changed_ = true;
            say(fmt::format("The card is now {}.", card.name));
        } else if (ending == ".json") {
            take_calibration(std::filesystem::absolute(path).string());
            changed_ = true;
            say(fmt::format("The calibration is now {}.", path.filename().string()));
        } else if (ending == ".icc" || ending == ".icm") {
            (void)read_display_profile(path);
            settings_.display = std::filesystem::absolute(path).string();
            say(fmt::format("The display is now as {} says.", path.filename().string()));
        } else {
            feed_->open(std::filesystem::absolute(path).string());
            remember_source();
            follow_source();
            say(fmt::format("Now looking at the {}.", feed_->name()));
        }
        save();
    } catch (const InputError& error) {
        say(error.what());
    }
}

}  // namespace tonemend
