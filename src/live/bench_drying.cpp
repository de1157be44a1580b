#include <fmt/format.h>

#include <algorithm>

#include "live/bench.h"
#include "picture/input_error.h"
#include "record/number_text.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

// What makes a file's name of a moment.
std::string name_of_moment(std::string utc) {
    std::erase_if(utc, [](char letter) { return letter == '-' || letter == ':'; });
    return utc;
}

}  // namespace

void Bench::follow_drying(const std::filesystem::path& log, const Region& repair) {
    drying_ = std::make_shared<DryingFollower>(log, settings_.drying_kind, repair, settings_.drying_every);
    settings_.drying = log.string();
    settings_.drying_kind = drying_->kind();
    settled_said_ = drying_->found_state() == DryingState::settled;
}

// A watch that was running when the window was left.
std::string Bench::go_on_with_drying() {
    if (settings_.drying.empty()) return "";
    const std::filesystem::path log = settings_.drying;
    settings_.drying.clear();
    std::error_code failure;
    const auto& repair = settings_.regions.repair;
    if (!repair || !std::filesystem::exists(log, failure)) return "";  // left before its first reading
    try {
        follow_drying(log, *repair);
    } catch (const InputError& error) {
        return fmt::format("The drying watch does not go on: {}", error.what());
    }
    return "";
}

void Bench::end_drying() {
    drying_.reset();
    settings_.drying.clear();
    changed_ = true;
}

void Bench::watch_or_leave_drying() {
    if (drying_) {
        say(fmt::format("The drying watch ends; its log is {}.",
                        std::filesystem::path(settings_.drying).filename().string()));
        end_drying();
        return save();
    }
    if (!state_->comparison || !editor_.regions().repair) {
        say("Nothing to watch yet: mark card, original and repair first.");
        return;
    }
    try {
        std::error_code failure;
        std::filesystem::create_directories(drying_logs(), failure);
        follow_drying(drying_logs() / fmt::format("drying-{}.log", name_of_moment(utc_now())),
                      *editor_.regions().repair);
        // Two lines have to hold it at the largest type.
        say(fmt::format(
            "Watching the repair dry: usually {:.0f} minutes, but the label comes first. Move nothing.",
            wait_of(settings_.drying_kind).minutes));
    } catch (const InputError& error) {
        say(error.what());
    }
    changed_ = true;
    save();
}

void Bench::go_to_next_drying_kind() {
    if (drying_) {
        say("What dries is said before the watch begins: Y ends this one, Shift Y chooses, Y begins again.");
        return;
    }
    const auto& waits = drying_waits();
    const auto at = std::find_if(waits.begin(), waits.end(),
                                 [&](const DryingWait& wait) { return wait.kind == settings_.drying_kind; });
    const auto next = at == waits.end() || at + 1 == waits.end() ? waits.begin() : at + 1;
    settings_.drying_kind = next->kind;
    say(fmt::format("Y watches: {}, usually {:.0f} minutes (common practice); the label comes first.",
                    next->what, next->minutes));
    save();
}

void Bench::announce_settled() {
    if (!drying_ || !state_->drying) return;
    const DryingReport& report = state_->drying->report;
    const bool settled = report.state == DryingState::settled;
    if (settled && !settled_said_) {
        ticker_.tick(Tick::settled);
        say(fmt::format("Settled after {:.0f} minutes: ΔE2000 {} since wet. Y ends the watch.",
                        report.seen_minutes, number_text(report.changed(), Sign::only_minus)));
    }
    settled_said_ = settled;
}

}  // namespace tonemend
