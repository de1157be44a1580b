#include "camera/capture_loop.h"

#include <algorithm>
#include <atomic>
#include <thread>

#include "camera/capture_slot.h"

namespace tonemend {

struct CaptureLoop::Worker {
    std::thread thread;
    std::shared_ptr<std::atomic<bool>> done = std::make_shared<std::atomic<bool>>(false);
};

CaptureLoop::CaptureLoop(const CapturePatience& patience) : slot_(std::make_shared<Slot>(patience)) {}

CaptureLoop::~CaptureLoop() {
    stop();
}

void CaptureLoop::watch(std::shared_ptr<Source> source) {
    const std::lock_guard control(control_);
    std::erase_if(workers_, [](Worker& worker) {
        if (*worker.done) worker.thread.join();
        return !worker.thread.joinable();
    });
    const std::uint64_t number = slot_->listen_to(*source);
    Worker& worker = workers_.emplace_back();
    worker.thread =
        std::thread([slot = slot_, done = worker.done, number, source = std::move(source)]() mutable {
            slot->run(number, *source);
            source.reset();
            const std::lock_guard lock(slot->mutex);
            *done = true;
            slot->changed.notify_all();
        });
}

void CaptureLoop::stop() {
    const std::lock_guard control(control_);
    {
        std::unique_lock lock(slot_->mutex);
        slot_->listening = 0;
        if (slot_->latest->frame) slot_->mark_stale("the camera is stopped; choose a source");
        slot_->changed.notify_all();
        slot_->changed.wait_for(lock, slot_->patience.stop, [&] {
            return std::all_of(workers_.begin(), workers_.end(),
                               [](const Worker& worker) { return worker.done->load(); });
        });
    }
    for (Worker& worker : workers_) {
        if (*worker.done)
            worker.thread.join();
        else
            worker.thread.detach();
    }
    workers_.clear();
}

std::shared_ptr<const CapturedFrame> CaptureLoop::latest() const {
    const std::lock_guard lock(slot_->mutex);
    return slot_->judged(std::chrono::steady_clock::now());
}

std::shared_ptr<const CapturedFrame> CaptureLoop::wait_for_newer(std::uint64_t number,
                                                                 std::chrono::milliseconds longest) const {
    std::unique_lock lock(slot_->mutex);
    slot_->changed.wait_for(lock, longest, [&] { return slot_->latest->number > number; });
    return slot_->judged(std::chrono::steady_clock::now());
}

void CaptureLoop::request_lock() {
    const std::lock_guard lock(slot_->mutex);
    slot_->lock_wanted = true;
    slot_->lock_met = false;
}

bool CaptureLoop::lock_answered() const {
    const std::lock_guard lock(slot_->mutex);
    return slot_->lock_met;
}

std::vector<ControlOutcome> CaptureLoop::control_outcomes() const {
    const std::lock_guard lock(slot_->mutex);
    return slot_->outcomes;
}

std::string CaptureLoop::source_name() const {
    const std::lock_guard lock(slot_->mutex);
    return slot_->name;
}

}  // namespace tonemend
