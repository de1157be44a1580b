#pragma once

#include <memory>
#include <mutex>
#include <optional>

#include "camera/practice_lens.h"
#include "camera/practice_stage.h"
#include "camera/source.h"

namespace tonemend {

/// The practice bench, live. change(), settings() and scene() may be called from any thread while another
/// takes frames.
class PracticeSource : public Source {
  public:
    explicit PracticeSource(PracticeSettings settings = {}, double frames_per_second = 15);

    std::string name() const override { return "practice bench"; }
    /// The next frame when its time has come. After a change that alters the light the picture is rendered
    /// anew first, which takes a tenth of a second at full high definition, patience or not; other changes
    /// cost nothing. Throws InputError: a setting out of range.
    std::shared_ptr<const Frame> next(std::chrono::milliseconds patience) override;
    /// The bench's camera is fixed at all times, and says so.
    std::vector<ControlOutcome> lock_controls() override;
    bool live() const override { return true; }

    PracticeSettings settings() const;
    void change(const PracticeSettings& settings);
    /// What the last frame shows: regions, card, truth. Null before the first.
    std::shared_ptr<const PracticeScene> scene() const;

  private:
    void prepare(const PracticeSettings& settings);

    const std::chrono::nanoseconds interval_;
    mutable std::mutex mutex_;  // of the next two
    PracticeSettings wanted_;
    std::shared_ptr<const PracticeScene> scene_;
    // The taking thread's own.
    PracticeStage stage_;
    std::optional<PracticeSettings> shown_;
    RawPicture light_;
    std::optional<PracticeLens> lens_;
    Random random_;
    std::uint64_t taken_ = 0;
    std::chrono::steady_clock::time_point due_;
};

}  // namespace tonemend
