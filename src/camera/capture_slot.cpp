#include "camera/capture_slot.h"

#include <algorithm>
#include <new>
#include <utility>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

namespace {

using Clock = std::chrono::steady_clock;

}  // namespace

std::uint64_t CaptureLoop::Slot::listen_to(const Source& source) {
    const std::lock_guard lock(mutex);
    listening = ++started;
    name = source.name();
    live = source.live();
    lock_wanted = lock_met = false;
    outcomes.clear();
    heard = Clock::now();
    interval = {};
    if (latest->frame) mark_stale(name + ": waiting for its first picture; one moment");
    changed.notify_all();
    return listening;
}

bool CaptureLoop::Slot::is_listening(std::uint64_t number) const {
    const std::lock_guard lock(mutex);
    return listening == number;
}

void CaptureLoop::Slot::run(std::uint64_t number, Source& source) {
    auto pause = patience.first_retry;
    while (is_listening(number)) {
        try {
            meet_lock_request(number, source);
            auto frame = source.next(patience.frame);
            if (!frame) continue;
            publish(number, std::move(frame));
            pause = patience.first_retry;
        } catch (const InputError& error) {
            report(number, error.what(), pause);
            pause = std::min(2 * pause, patience.last_retry);
        } catch (const std::bad_alloc&) {
            report(number, "not enough memory for a frame; close other programs", patience.last_retry);
        } catch (const std::exception& error) {
            report(number, one_line(error.what(), 200) + "; choose another source if this goes on",
                   patience.last_retry);
        }
    }
}

void CaptureLoop::Slot::meet_lock_request(std::uint64_t number, Source& source) {
    {
        const std::lock_guard lock(mutex);
        if (!lock_wanted || listening != number) return;
        lock_wanted = false;
    }
    auto found = source.lock_controls();
    const std::lock_guard lock(mutex);
    if (listening != number) return;
    outcomes = std::move(found);
    lock_met = true;
}

void CaptureLoop::Slot::publish(std::uint64_t number, std::shared_ptr<const Frame> frame) {
    auto next = std::make_shared<CapturedFrame>();
    next->frame = std::move(frame);
    next->when = Clock::now();
    std::shared_ptr<const CapturedFrame> old;  // its memory is given back after the lock
    const std::lock_guard lock(mutex);
    if (listening != number) return;
    next->number = latest->number + 1;
    next->live = live;
    next->source = number;
    if (latest->frame && !latest->stale) {
        // A silence is no part of the source's pace.
        const auto since = std::min<Clock::duration>(next->when - latest->when, patience.least_silence);
        interval = interval.count() == 0 ? since : (7 * interval + since) / 8;
    }
    heard = next->when;
    old = std::exchange(latest, std::move(next));
    changed.notify_all();
}

void CaptureLoop::Slot::mark_stale(const std::string& trouble) {
    auto next = std::make_shared<CapturedFrame>(*latest);
    next->stale = latest->frame != nullptr;
    next->trouble = trouble;
    latest = std::move(next);
}

void CaptureLoop::Slot::report(std::uint64_t number, const std::string& trouble,
                               std::chrono::milliseconds pause) {
    std::unique_lock lock(mutex);
    if (listening != number) return;
    mark_stale(trouble);
    changed.notify_all();
    changed.wait_for(lock, live ? pause : std::min(pause, std::chrono::milliseconds(200)),
                     [&] { return listening != number; });
}

std::shared_ptr<const CapturedFrame> CaptureLoop::Slot::judged(Clock::time_point now) const {
    if (!live || listening == 0 || !latest->trouble.empty()) return latest;
    const Clock::duration limit = interval.count() == 0
                                      ? Clock::duration(patience.first_silence)
                                      : std::max<Clock::duration>(5 * interval, patience.least_silence);
    if (now - heard <= limit) return latest;
    auto stale = std::make_shared<CapturedFrame>(*latest);
    stale->stale = latest->frame != nullptr;
    stale->trouble = name + ": sends no picture; check its cable or network";
    return stale;
}

}  // namespace tonemend
