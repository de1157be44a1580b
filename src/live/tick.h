#pragma once

#include <array>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

namespace tonemend {

/// What the ear is told of a reading.
enum class Tick {
    kept,      ///< one high tick
    doubtful,  ///< two low ones: it could not be kept, or a warning makes it unfit
    settled,   ///< five high ones: what was drying has settled
};

inline constexpr int tick_rate = 48'000;  ///< samples a second
inline constexpr double tick_seconds = 0.030,
                        tick_pause = 0.090;  ///< of a tick; from one's start to the next
inline constexpr double kept_hertz = 1760,
                        doubtful_hertz = 587.33;  ///< A6 and D5, equal temperament on 440 Hz

/// One channel of 16-bit samples: a sine that starts at once, is 60 dB down after tick_seconds, and peaks at
/// half of full scale.
std::vector<std::int16_t> tick_samples(Tick tick);

/// Plays ticks through ALSA's device "default" (PulseAudio and PipeWire stand behind it where they run), in a
/// thread of its own that begins with the first one. The device is open only while a tick sounds, so that
/// others can have it and a headset plugged in later is found. Nothing is ever printed.
class Ticker {
  public:
    Ticker() = default;
    /// Waits for the tick that sounds.
    ~Ticker();
    Ticker(const Ticker&) = delete;
    Ticker& operator=(const Ticker&) = delete;

    /// Returns at once. More than a few that wait are dropped: a late tick says nothing.
    void tick(Tick tick);
    /// One line while the last tick could not be played; empty else.
    std::string trouble() const;

  private:
    void run();

    mutable std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Tick> waiting_;  // all below: under mutex_
    std::string trouble_;
    bool ending_ = false;
    std::thread thread_;
};

}  // namespace tonemend
