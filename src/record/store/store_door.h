#pragma once

#include <memory>

#include "record/store/job_store.h"

namespace tonemend {

/// A store that is opened when it is first wanted: to look, which makes nothing and also serves where nothing
/// can be written, or to keep. One that was opened to look is opened anew to keep, so that a folder that was
/// closed and is open again serves. Belongs to one thread at a time.
class StoreDoor {
  public:
    explicit StoreDoor(StoreLocation location = {}) : location_(std::move(location)) {}

    const StoreLocation& location() const { return location_; }
    /// Null: there is no store yet. Throws InputError as JobStore does.
    std::shared_ptr<JobStore> look();
    /// Never null; made if need be. Throws likewise.
    std::shared_ptr<JobStore> keep();

  private:
    StoreLocation location_;
    std::shared_ptr<JobStore> store_;
    bool keeping_ = false;
};

}  // namespace tonemend
