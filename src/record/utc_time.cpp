#include "record/utc_time.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <ctime>

namespace tonemend {

std::string utc_now() {
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::time(nullptr)));
}

}  // namespace tonemend
