#pragma once

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "live/bench_state.h"
#include "record/reading_store.h"

namespace tonemend {

/// A kept reading's picture brought back, with the calibration made anew on its card.
struct KeptPicture {
    int number = 0;
    std::string taken;  ///< "2026-11-25T10:09:00Z"
    std::shared_ptr<const Frame> frame;
    std::shared_ptr<const Calibration> calibration;
    BenchRegions regions;
    std::optional<Quad> card_window;  ///< in the frame's pixels
};

/// Brings back one picture at a time in a thread of its own, so that the window never waits; the newest asked
/// for wins. Belongs to one thread but for what that thread does.
class KeptPictureLoader {
  public:
    /// `loaded` is called from the loading thread when what was asked for is there, or cannot be.
    explicit KeptPictureLoader(std::function<void()> loaded);
    /// Waits for a picture that is being read.
    ~KeptPictureLoader();
    KeptPictureLoader(const KeptPictureLoader&) = delete;
    KeptPictureLoader& operator=(const KeptPictureLoader&) = delete;

    /// Returns at once; the same one asked for again costs nothing, also when it had failed (forget it
    /// first). `card` is as locate_card takes it and serves when the reading does not name its own.
    void ask(std::shared_ptr<const ReadingStore> store, int number, const std::string& card);
    void forget();
    /// Null while loading and when it failed.
    std::shared_ptr<const KeptPicture> picture() const;
    /// One line when it could not be brought back; empty else.
    std::string trouble() const;

  private:
    struct Order {
        std::shared_ptr<const ReadingStore> store;
        int number = 0;  ///< 0: nothing is asked for
        std::string card;
        bool operator==(const Order&) const = default;
    };
    void run();

    std::function<void()> loaded_;
    mutable std::mutex mutex_;
    std::condition_variable changed_;
    Order asked_;  // all below: under mutex_
    bool waiting_ = false, ending_ = false;
    std::shared_ptr<const KeptPicture> picture_;
    std::string trouble_;
    std::thread thread_;
};

}  // namespace tonemend
