#include "live/reading_keeper.h"

#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <utility>

#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr std::chrono::seconds again_after{3};

}  // namespace

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

std::uint64_t ReadingKeeper::keep(std::shared_ptr<AreaReadings> store,
                                  std::shared_ptr<const BenchState> state, const std::string& card,
                                  const std::string& taken, std::optional<ReadingRole> role) {
    std::uint64_t ticket = 0;
    {
        const std::lock_guard lock(mutex_);
        ticket = ++tickets_;
        orders_.push_back({ticket, std::move(store), std::move(state), card, taken, role});
    }
    changed_.notify_one();
    return ticket;
}

void ReadingKeeper::drop(std::uint64_t ticket) {
    const std::lock_guard lock(mutex_);
    std::erase_if(in_hand_, [&](const Order& order) { return order.ticket == ticket; });
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
    ReadingToKeep reading{"bench",
                          order.taken,
                          annotate_picture(*state.measured, *state.calibration, *state.comparison),
                          *state.calibration,
                          *state.comparison,
                          std::move(source),
                          light_of(*state.measured, *state.calibration)};
    reading.role = order.role;
    if (state.held && state.held->change)
        reading.lights = under_both(*state.held, *state.measured, state.calibration, *state.comparison);
    return order.store->keep(reading);
}

// The next one to be kept; what is in hand is tried again when nothing has come for a while.
bool ReadingKeeper::take_order(Order& order) {
    std::unique_lock lock(mutex_);
    const auto ready = [this] { return !orders_.empty() || ending_; };
    while (!ready()) {
        if (in_hand_.empty()) {
            changed_.wait(lock, ready);
        } else if (!changed_.wait_for(lock, again_after, ready)) {
            orders_.swap(in_hand_);
        }
    }
    if (orders_.empty()) return false;
    order = std::move(orders_.front());
    orders_.pop_front();
    return true;
}

// Whether there is something new to say of it.
bool ReadingKeeper::carry_out(Order& order) {
    KeepingOutcome outcome{order.ticket, std::nullopt, "", ""};
    try {
        outcome.reading = put(order);
        outcome.area = order.store->area();
    } catch (const std::exception& error) {
        outcome.trouble = one_line(error.what(), 300);
    }
    const std::lock_guard lock(mutex_);
    const bool said = !outcome.reading && std::exchange(order.failed, true);
    if (!outcome.reading) in_hand_.push_back(std::move(order));
    if (!said) finished_.push_back(std::move(outcome));
    return !said;
}

void ReadingKeeper::save_what_is_in_hand() {
    const auto file =
        std::filesystem::temp_directory_path() / fmt::format("tonemend-unsaved-{}.sqlite", getpid());
    const auto refuge = std::make_shared<AreaReadings>(AreaChoice{{file, {}}, "", "Unsaved"});
    std::size_t saved = 0;
    for (Order& order : in_hand_) {
        order.store = refuge;
        try {
            (void)put(order);
            ++saved;
        } catch (const std::exception& error) {
            fmt::print(stderr, "tonemend: a reading is lost: {}\n", one_line(error.what(), 300));
        }
    }
    if (saved > 0)
        fmt::print(stderr,
                   "tonemend: {} readings could not be kept where they belong and are in {}; bring them in "
                   "with 'tonemend "
                   "job copy --store {} TO', TO being your store\n",
                   saved, file.string(), file.string());
}

void ReadingKeeper::run() {
    Order order;
    while (take_order(order))
        if (carry_out(order)) kept_();
    // Nobody asks any more: no lock is needed, and one last time is tried before they go elsewhere.
    orders_.swap(in_hand_);
    while (take_order(order)) (void)carry_out(order);
    save_what_is_in_hand();
}

}  // namespace tonemend
