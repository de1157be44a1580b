#include "live/reading_keeper.h"

#include <utility>

#include "picture/text_line.h"
#include "record/job_folder.h"

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

std::uint64_t ReadingKeeper::keep(std::shared_ptr<const BenchState> state, const std::filesystem::path& job) {
    std::uint64_t ticket = 0;
    {
        const std::lock_guard lock(mutex_);
        ticket = ++tickets_;
        orders_.push_back({ticket, std::move(state), job});
    }
    changed_.notify_one();
    return ticket;
}

std::vector<KeptReading> ReadingKeeper::finished() {
    const std::lock_guard lock(mutex_);
    return std::exchange(finished_, {});
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
        KeptReading kept{order.ticket, {}, ""};
        try {
            kept.file = JobFolder(order.job).keep(
                "bench",
                annotate_picture(*order.state->frame, *order.state->calibration, *order.state->comparison),
                *order.state->calibration, *order.state->comparison);
        } catch (const std::exception& error) {
            kept.trouble = one_line(error.what(), 300);
        }
        {
            const std::lock_guard lock(mutex_);
            finished_.push_back(std::move(kept));
        }
        kept_();
    }
}

}  // namespace tonemend
