#pragma once

#include <atomic>
#include <condition_variable>
#include <mutex>
#include <thread>

#include "camera/source.h"
#include "picture/input_error.h"
#include "tests/camera/small_pictures.h"

namespace tonemend::testing {

enum class Behaviour { deliver, silent, broken, hang };

/// A source that does as it is told.
class FakeSource : public Source {
  public:
    explicit FakeSource(std::uint8_t code = 100)
        : frame_(std::make_shared<const Frame>(grey_frame(16, 16, code))) {}
    ~FakeSource() override { behave(Behaviour::silent); }

    std::string name() const override { return "fake"; }
    bool live() const override { return true; }
    std::shared_ptr<const Frame> next(std::chrono::milliseconds patience) override {
        ++calls;
        std::unique_lock lock(mutex_);
        if (behaviour_ == Behaviour::broken) throw InputError("fake: broken; mend it");
        if (behaviour_ == Behaviour::hang) changed_.wait(lock, [&] { return behaviour_ != Behaviour::hang; });
        if (behaviour_ == Behaviour::deliver) {
            lock.unlock();
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
            return frame_;
        }
        changed_.wait_for(lock, patience);
        return nullptr;
    }
    std::vector<ControlOutcome> lock_controls() override { return {{"focus", true, "7"}}; }

    void behave(Behaviour behaviour) {
        const std::lock_guard lock(mutex_);
        behaviour_ = behaviour;
        changed_.notify_all();
    }
    std::atomic<int> calls = 0;

  private:
    std::mutex mutex_;
    std::condition_variable changed_;
    Behaviour behaviour_ = Behaviour::deliver;
    std::shared_ptr<const Frame> frame_;
};

/// True when `what` comes true within `longest`.
template <typename What>
bool comes_true(What what, std::chrono::milliseconds longest) {
    const auto end = std::chrono::steady_clock::now() + longest;
    while (!what()) {
        if (std::chrono::steady_clock::now() > end) return false;
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return true;
}

}  // namespace tonemend::testing
