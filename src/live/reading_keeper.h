#pragma once

#include <condition_variable>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "live/bench_state.h"
#include "record/reading_store.h"

namespace tonemend {

/// What became of one reading.
struct KeepingOutcome {
    std::uint64_t ticket = 0;
    std::optional<KeptReading> reading;  ///< absent when it failed
    std::string trouble;                 ///< one line, then
};

/// Annotates readings and puts them into the store in a thread of its own, in order; a slow disk holds nobody
/// up. Whatever was taken is written before it goes away.
class ReadingKeeper {
  public:
    /// `kept` is called from the writing thread after each reading. Only that thread puts into `store`.
    ReadingKeeper(std::shared_ptr<ReadingStore> store, std::function<void()> kept);
    ~ReadingKeeper();
    ReadingKeeper(const ReadingKeeper&) = delete;
    ReadingKeeper& operator=(const ReadingKeeper&) = delete;

    /// Takes the reading of `state`, which must hold a comparison, as of the moment `taken` (see utc_now).
    /// `measured` is the frame that the comparison was made on; it is kept whole. `card` as locate_card takes
    /// it. Returns its ticket, 1, 2, 3, …
    std::uint64_t keep(std::shared_ptr<const BenchState> state, std::shared_ptr<const Frame> measured,
                       const std::string& card, const std::string& taken);
    /// What was finished since last asked.
    std::vector<KeepingOutcome> finished();

  private:
    struct Order {
        std::uint64_t ticket;
        std::shared_ptr<const BenchState> state;
        std::shared_ptr<const Frame> measured;
        std::string card, taken;
    };
    void run();
    KeptReading put(const Order& order);

    std::shared_ptr<ReadingStore> store_;
    std::function<void()> kept_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Order> orders_;  // all below: under mutex_
    std::vector<KeepingOutcome> finished_;
    std::uint64_t tickets_ = 0;
    bool ending_ = false;
    std::thread thread_;
};

}  // namespace tonemend
