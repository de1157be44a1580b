#include "record/store/store_door.h"

namespace tonemend {

std::shared_ptr<JobStore> StoreDoor::look() {
    if (!store_ && location_.is_there()) store_ = std::make_shared<JobStore>(location_, StoreUse::reading);
    return store_;
}

std::shared_ptr<JobStore> StoreDoor::keep() {
    if (!store_ || !keeping_) store_ = std::make_shared<JobStore>(location_, StoreUse::keeping);
    keeping_ = true;
    return store_;
}

}  // namespace tonemend
