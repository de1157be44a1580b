#pragma once

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "camera/source.h"
#include "live/bench_state.h"

namespace tonemend {

class DryingFollower;

/// What is to be measured in every frame.
struct MeasureRequest {
    BenchRegions regions;
    std::string card = "six-step-card";
    double tolerance = default_tolerance;
    bool average = true;  ///< measure the mean of a live source's frames while nothing moves
    std::vector<std::string>
        flat;  ///< pictures by which the light is evened out, as read_flat_pictures takes them
    CalibrationInputs inputs;  ///< what else is known; its flat samples are those of `flat`
    std::shared_ptr<const HeldLight> held = nullptr;  ///< light one to compare with; null: none
    LampSaid lamp = LampSaid::nothing;
    std::shared_ptr<DryingFollower> drying = nullptr;  ///< null: nothing is watched
};

/// The measuring thread: takes the newest frame, never a queue of old ones, finds the card, calibrates,
/// compares, and publishes a whole BenchState. Nobody waits for it and it holds no lock while it works, so a
/// reading is never older than the frame under work and the one that came meanwhile.
class MeasureLoop {
  public:
    /// `latest` is asked for the newest frame; `published` is called from the measuring thread after each new
    /// state. Both must be safe to call from there.
    MeasureLoop(std::function<CapturedFrame()> latest, std::function<void()> published);
    ~MeasureLoop();
    MeasureLoop(const MeasureLoop&) = delete;
    MeasureLoop& operator=(const MeasureLoop&) = delete;

    /// Tells it that `latest` has something new.
    void wake();
    /// From now on measure this; the newest frame is measured again at once.
    void ask(const MeasureRequest& request);
    /// The newest state; never null.
    std::shared_ptr<const BenchState> state() const;

  private:
    void run();

    std::function<CapturedFrame()> latest_;
    std::function<void()> published_;
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    MeasureRequest request_;  // all below: under mutex_
    std::uint64_t asked_ = 1;
    bool awake_ = false, ending_ = false;
    std::shared_ptr<const BenchState> state_ = std::make_shared<BenchState>();
    std::thread thread_;
};

}  // namespace tonemend
