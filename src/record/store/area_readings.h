#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "record/reading_store.h"
#include "record/store/store_door.h"

namespace tonemend {

/// Which area readings go to.
struct AreaChoice {
    StoreLocation store;
    std::string area;  ///< uid; empty: that of the standing job of this name, made with the first reading
    std::string standing_job = "Bench";
    bool operator==(const AreaChoice&) const = default;
};

/// The readings of one area of a store. Nothing is made before the first reading is kept.
class AreaReadings : public ReadingStore {
  public:
    explicit AreaReadings(AreaChoice choice) : choice_(std::move(choice)), door_(choice_.store) {}

    KeptReading keep(const ReadingToKeep& reading) override;
    std::vector<KeptReading> list() const override;
    void undo(int number) override;
    ReopenedReading reopen(int number) const override;

    /// Records a step of the area, which is made if there is none yet; as JobStore::add_step.
    FinishingStep add_step(const FinishingStep& step);
    /// Several as one action.
    void add_steps(std::vector<FinishingStep> steps);
    /// A new piece with an area, in the same job; the job is made if there is none. Returns the area's uid.
    std::string begin_piece();
    /// The store, opened if it is there, and the area; null and empty: there is nothing yet. Throws
    /// InputError.
    std::shared_ptr<JobStore> store() const;
    std::string area() const;

  private:
    std::shared_ptr<JobStore> find() const;
    std::shared_ptr<JobStore> make();
    void find_area(JobStore& store, bool make) const;
    ReadingRecord record_of(int number) const;

    AreaChoice choice_;
    mutable std::mutex mutex_;
    mutable StoreDoor door_;  // below: under mutex_
    mutable std::string area_;
};

/// Keeps a reading in an area that is there, as `role`, with its comparisons: one as "after" is held against
/// the one before; `light_name`: what the person calls its light.
KeptReading keep_in_area(JobStore& store, const std::string& area, ReadingRole role,
                         const ReadingToKeep& reading, const std::string& light_name = {});

/// The area's readings as ReadingStore lists them.
std::vector<KeptReading> list_readings(JobStore& store, const std::string& area);

/// The newest of them; nothing when there is none.
std::optional<KeptReading> newest_reading(JobStore& store, const std::string& area);

/// Name and version of this program.
std::string software_name();

}  // namespace tonemend
