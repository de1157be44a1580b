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
#include "record/store/area_readings.h"

namespace tonemend {

/// What became of one reading.
struct KeepingOutcome {
    std::uint64_t ticket = 0;
    std::optional<KeptReading> reading;  ///< absent when it failed
    std::string trouble;                 ///< one line, then
    std::string area;                    ///< uid, that it was kept in
};

/// Annotates readings and puts them into the store in a thread of its own, in order; a slow disk holds nobody
/// up. A reading that the store does not take stays in hand and is tried again every few seconds. What is
/// still in hand at the end goes to a store of its own in the folder for temporary files, and stderr says so.
class ReadingKeeper {
  public:
    /// `kept` is called from the writing thread after each reading, and after the first failure of each.
    explicit ReadingKeeper(std::function<void()> kept);
    ~ReadingKeeper();
    ReadingKeeper(const ReadingKeeper&) = delete;
    ReadingKeeper& operator=(const ReadingKeeper&) = delete;

    /// Takes the reading of `state`, which must hold a comparison, as of the moment `taken` (see utc_now),
    /// for `store`. The frame that was measured is kept whole. `card` as locate_card takes it. Returns its
    /// ticket, 1, 2, 3, …
    std::uint64_t keep(std::shared_ptr<AreaReadings> store, std::shared_ptr<const BenchState> state,
                       const std::string& card, const std::string& taken,
                       std::optional<ReadingRole> role = std::nullopt);
    /// Lets go of a reading that is still in hand.
    void drop(std::uint64_t ticket);
    /// What was finished since last asked.
    std::vector<KeepingOutcome> finished();

  private:
    struct Order {
        std::uint64_t ticket = 0;
        std::shared_ptr<AreaReadings> store;
        std::shared_ptr<const BenchState> state;
        std::string card, taken;
        std::optional<ReadingRole> role;
        bool failed = false;
    };
    void run();
    bool take_order(Order& order);
    bool carry_out(Order& order);
    KeptReading put(const Order& order);
    void save_what_is_in_hand();

    std::function<void()> kept_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::deque<Order> orders_;   // all below: under mutex_
    std::deque<Order> in_hand_;  // that failed
    std::vector<KeepingOutcome> finished_;
    std::uint64_t tickets_ = 0;
    bool ending_ = false;
    std::thread thread_;
};

}  // namespace tonemend
