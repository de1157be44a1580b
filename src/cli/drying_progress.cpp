#include "cli/drying_progress.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "calibrate/keep/calibration_file.h"
#include "cli/drying_text.h"
#include "cli/output.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/comparison_json.h"

namespace tonemend {
namespace {

DryingKind kind_of(const std::string& text) {
    return find_drying_kind(text).value_or(DryingKind::unknown);
}

// A log that is there decides; what is asked for may not contradict it.
void require_same(const DryingOptions& options, const DryingLogHead& head) {
    const auto refuse = [&](const std::string& what, const std::string& was) {
        throw InputError(fmt::format("{}: it was begun with {} {}; give the same, or another --log",
                                     one_line(options.log, 300), what, one_line(was, 100)));
    };
    if (options.region != head.region) refuse("--region", head.region);
    if (kind_of(options.kind) != head.kind) refuse("--kind", wait_of(head.kind).name);
    if (options.label_minutes != head.label_minutes)
        refuse("--label-minutes",
               head.label_minutes ? fmt::format("{:g}", *head.label_minutes) : "left away");
}

const Warning* find_unfit(const Calibration& calibration) {
    for (const Warning& warning : calibration.warnings)
        if (warning.unfit) return &warning;
    return nullptr;
}

}  // namespace

DryingProgress::DryingProgress(const DryingOptions& options)
    : options_(options), kind_(kind_of(options.kind)), watch_(kind_, options.label_minutes) {
    const Region region = parse_region(options.region, "--region");
    std::optional<Matrix3> first_card;
    if (!options.light.calibration.empty())
        kept_ = std::make_shared<const KeptCalibration>(read_calibration(options.light.calibration));
    if (!options.log.empty()) {
        writer_ = std::make_unique<DryingLogWriter>(options.log);
        if (const auto& found = writer_->found()) {
            require_same(options, found->head);
            log_begun_ = true;
            watch_ = found->replay();
            first_card = found->head.card_to_picture;
            for (const DryingLogEntry& entry : found->entries) known_.push_back(entry.picture);
            said_ = watch_.report().state;
            if (!options.json)
                print_out(fmt::format("  goes on from {} readings in {}: {}\n", found->entries.size(),
                                      one_line(options.log, 200), say_state(watch_.report())));
        }
    }
    region_.emplace(region, first_card);
}

bool DryingProgress::knows(const std::string& picture) const {
    return std::find(known_.begin(), known_.end(), picture) != known_.end();
}

bool DryingProgress::done() const {
    return (options_.until_settled && said_ == DryingState::settled) ||
           (options_.readings > 0 && new_readings_ >= options_.readings);
}

void DryingProgress::say_left_out(const std::string& why) {
    if (why == last_trouble_) return;
    last_trouble_ = why;
    fmt::print(stderr, "tonemend: left out: {}\n", one_line(why, 500));
}

void DryingProgress::take(const std::shared_ptr<const Frame>& frame, double seconds,
                          const std::string& picture) {
    FollowedReading reading;
    try {
        const Calibration calibration = calibrate_with(*frame, options_.light, kept_);
        if (const Warning* unfit = find_unfit(calibration))
            throw InputError(fmt::format("{}: {} ({})", frame->name, unfit->text, unfit->code));
        reading = region_->read(frame, calibration);
    } catch (const InputError& error) {
        return say_left_out(error.what());
    }
    last_trouble_.clear();
    const TimedLab timed{seconds, reading.lab, reading.u95};
    const DryingWatch::Taken taken = watch_.add(timed);
    if (taken == DryingWatch::Taken::too_old)
        return say_left_out(frame->name + ": was taken no later than the reading before it");
    ++new_readings_;
    known_.push_back(picture);
    if (writer_) {
        if (!log_begun_)
            writer_->begin({options_.region, kind_, options_.label_minutes, options_.source,
                            region_->first_card().value_or(Matrix3::identity())});
        log_begun_ = true;
        writer_->append({timed, picture}, watch_.report());
    }
    say(reading, taken, seconds);
}

void DryingProgress::say(const FollowedReading& reading, DryingWatch::Taken taken, double seconds) {
    const DryingReport report = watch_.report();
    const bool alarm = report.state == DryingState::settled && said_ != DryingState::settled;
    said_ = report.state;
    if (!options_.json)
        print_out(reading_line(reading, taken, seconds, report) + (alarm ? settled_line(report) : ""));
    // The terminal's bell, where there is a terminal to ring.
    if (alarm && isatty(STDERR_FILENO) == 1) fmt::print(stderr, "\a");
}

void DryingProgress::finish() {
    if (watch_.empty())
        throw InputError(
            fmt::format("{}: not one reading could be made; see what was left out, and mend that first",
                        one_line(options_.source, 400)));
    const DryingReport report = watch_.report();
    print_out(options_.json ? to_text(drying_json(report, kind_)) : end_text(report, kind_));
}

}  // namespace tonemend
