#include "live/tick.h"

#include <alsa/asoundlib.h>
#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <memory>
#include <mutex>
#include <numbers>

#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr std::size_t most_waiting = 3;
constexpr unsigned buffer_microseconds = 60'000;
// How long a device may refuse to take samples before it is given up.
constexpr int patience_ms = 500;

void be_silent(const char*, int, const char*, int, const char*, ...) {}

struct CloseDevice {
    void operator()(snd_pcm_t* device) const { snd_pcm_close(device); }
};
using Device = std::unique_ptr<snd_pcm_t, CloseDevice>;

std::string refusal(int error) {
    return fmt::format("No tick can be heard ({}); connect a loudspeaker, or switch the tick off.",
                       one_line(snd_strerror(error), 80));
}

// Returns 0 or ALSA's negative error.
int open_device(Device& device) {
    snd_pcm_t* opened = nullptr;
    if (const int error = snd_pcm_open(&opened, "default", SND_PCM_STREAM_PLAYBACK, SND_PCM_NONBLOCK);
        error < 0)
        return error;
    device.reset(opened);
    constexpr int one_channel = 1, may_resample = 1;
    return snd_pcm_set_params(opened, SND_PCM_FORMAT_S16, SND_PCM_ACCESS_RW_INTERLEAVED, one_channel,
                              tick_rate, may_resample, buffer_microseconds);
}

// Returns 0 when the device took them all, or ALSA's negative error.
int put_samples(snd_pcm_t* device, const std::vector<std::int16_t>& samples) {
    for (std::size_t done = 0; done < samples.size();) {
        const snd_pcm_sframes_t taken = snd_pcm_writei(device, samples.data() + done,
                                                       static_cast<snd_pcm_uframes_t>(samples.size() - done));
        if (taken > 0) {
            done += static_cast<std::size_t>(taken);
        } else if (taken == -EAGAIN || taken == 0) {
            if (snd_pcm_state(device) == SND_PCM_STATE_PREPARED) snd_pcm_start(device);
            const int ready = snd_pcm_wait(device, patience_ms);
            if (ready <= 0) return ready == 0 ? -ETIMEDOUT : ready;
        } else if (const int error = snd_pcm_recover(device, static_cast<int>(taken), 1); error < 0) {
            return error;
        }
    }
    // A buffer that is not full does not start by itself.
    if (snd_pcm_state(device) == SND_PCM_STATE_PREPARED) snd_pcm_start(device);
    return 0;
}

// A device that never finishes is left after the same patience.
void wait_until_heard(snd_pcm_t* device) {
    constexpr int pause_ms = 5;
    for (int waited = 0; waited < patience_ms && snd_pcm_drain(device) == -EAGAIN; waited += pause_ms)
        std::this_thread::sleep_for(std::chrono::milliseconds(pause_ms));
}

int play(const std::vector<std::int16_t>& samples) {
    Device device;
    int error = open_device(device);
    if (error == 0) error = put_samples(device.get(), samples);
    if (error == 0) wait_until_heard(device.get());
    return error;
}

}  // namespace

std::vector<std::int16_t> tick_samples(Tick tick) {
    constexpr double peak = 0.5 * 32767;
    // A thousandth of the amplitude at the end.
    const double decay = std::log(1000.0) / tick_seconds;
    const double hertz = tick == Tick::doubtful ? doubtful_hertz : kept_hertz;
    const int ticks = tick == Tick::kept ? 1 : tick == Tick::doubtful ? 2 : 5;
    const auto length = static_cast<std::size_t>(tick_rate * tick_seconds);
    const auto pause = static_cast<std::size_t>(tick_rate * tick_pause);
    std::vector<std::int16_t> samples(length + pause * static_cast<std::size_t>(ticks - 1));
    for (std::size_t start = 0; start < samples.size(); start += pause) {
        for (std::size_t i = 0; i < length; ++i) {
            const double t = static_cast<double>(i) / tick_rate;
            samples[start + i] = static_cast<std::int16_t>(
                std::lround(peak * std::exp(-decay * t) * std::sin(2 * std::numbers::pi * hertz * t)));
        }
    }
    return samples;
}

Ticker::~Ticker() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
        waiting_.clear();
    }
    changed_.notify_all();
    if (thread_.joinable()) thread_.join();
}

void Ticker::tick(Tick tick) {
    {
        const std::lock_guard lock(mutex_);
        if (waiting_.size() >= most_waiting) return;
        waiting_.push_back(tick);
        if (!thread_.joinable()) thread_ = std::thread([this] { run(); });
    }
    changed_.notify_one();
}

std::string Ticker::trouble() const {
    const std::lock_guard lock(mutex_);
    return trouble_;
}

void Ticker::run() {
    // The library keeps one handler for the whole program.
    snd_lib_error_set_handler(be_silent);
    std::unique_lock lock(mutex_);
    while (true) {
        changed_.wait(lock, [this] { return !waiting_.empty() || ending_; });
        if (ending_) break;
        const Tick tick = waiting_.front();
        waiting_.pop_front();
        lock.unlock();
        const int error = play(tick_samples(tick));
        lock.lock();
        trouble_ = error == 0 ? "" : refusal(error);
    }
    snd_config_update_free_global();
}

}  // namespace tonemend
