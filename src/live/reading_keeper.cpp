#include "live/reading_keeper.h"

#include <utility>

#include "picture/text_line.h"

namespace tonemend {

ReadingKeeper::ReadingKeeper(std::function<void()> kept)
    : kept_(std::move(kept)), thread_([this] { run(); }) {}

ReadingKeeper::~ReadingKeeper() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    changed_.notify_all();
    thread_.join();
}

std::uint64_t ReadingKeeper::keep(std::shared_ptr<ReadingStore> store,
                                  std::shared_ptr<const BenchState> state, const std::string& card,
                                  const std::string& taken) {
    std::uint64_t ticket = 0;
    {
        const std::lock_guard lock(mutex_);
        ticket = ++tickets_;
        orders_.push_back({ticket, std::move(store), std::move(state), card, taken});
    }
    changed_.notify_one();
    return ticket;
}

std::vector<KeepingOutcome> ReadingKeeper::finished() {
    const std::lock_guard lock(mutex_);
    return std::exchange(finished_, {});
}

KeptReading ReadingKeeper::put(const Order& order) {
    const BenchState& state = *order.state;
    ReadingPicture source{state.measured, *state.regions.original, *state.regions.repair, state.card,
                          order.card};
    if (state.regions.card) source.bare_card = state.card_window;
    source.kept = state.calibration->kept;
    source.stated = state.calibration->stated;
    if (state.calibration->flat_field)
        source.flat_field = std::make_shared<const FlatField>(*state.calibration->flat_field);
    return order.store->keep({"bench", order.taken,
                              annotate_picture(*state.measured, *state.calibration, *state.comparison),
                              *state.calibration, *state.comparison, std::move(source),
                              light_of(*state.measured, *state.calibration)});
}

void ReadingKeeper::run() {
    while (true) {
        Order order;
        {
            std::unique_lock lock(mutex_);
            changed_.wait(lock, [this] { return !orders_.empty() || ending_; });
            if (orders_.empty()) return;
            order = std::move(orders_.front());
            orders_.pop_front();
        }
        KeepingOutcome outcome{order.ticket, std::nullopt, ""};
        try {
            outcome.reading = put(order);
        } catch (const std::exception& error) {
            outcome.trouble = one_line(error.what(), 300);
        }
        {
            const std::lock_guard lock(mutex_);
            finished_.push_back(std::move(outcome));
        }
        kept_();
    }
}

}  // namespace tonemend
