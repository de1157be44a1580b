#include "camera/still_source.h"

#include "camera/poll_until.h"

namespace tonemend {

std::shared_ptr<const Frame> StillSource::next(std::chrono::milliseconds patience) {
    return poll_until(patience, [this]() -> std::shared_ptr<const Frame> {
        if (auto frame = file_.poll()) return std::make_shared<const Frame>(std::move(*frame));
        return nullptr;
    });
}

}  // namespace tonemend
