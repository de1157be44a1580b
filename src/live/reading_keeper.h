#pragma once

#include <condition_variable>
#include <deque>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "live/bench_state.h"

namespace tonemend {

/// What became of one reading.
struct KeptReading {
    std::uint64_t ticket = 0;
    std::filesystem::path file;  ///< empty when it failed
    std::string trouble;         ///< one line, then
};

/// Writes readings to the job folder in a thread of its own, in order; a slow disk holds nobody up. Whatever
/// was taken is written before it goes away.
class ReadingKeeper {
  public:
    /// `kept` is called from the writing thread after each reading.
    explicit ReadingKeeper(std::function<void()> kept);
    ~ReadingKeeper();
    ReadingKeeper(const ReadingKeeper&) = delete;
    ReadingKeeper& operator=(const ReadingKeeper&) = delete;

    /// Takes the reading of `state`, which must hold a comparison; returns its ticket, 1, 2, 3, …
    std::uint64_t keep(std::shared_ptr<const BenchState> state, const std::filesystem::path& job);
    /// What was finished since last asked.
    std::vector<KeptReading> finished();

  private:
    struct Order {
        std::uint64_t ticket;
        std::shared_ptr<const BenchState> state;
        std::filesystem::path job;
    };
    void run();

    std::function<void()> kept_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Order> orders_;  // all below: under mutex_
    std::vector<KeptReading> finished_;
    std::uint64_t tickets_ = 0;
    bool ending_ = false;
    std::thread thread_;
};

}  // namespace tonemend
