#include "record/utc_time.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <ctime>

namespace tonemend {

std::string utc_now() {
    return utc_text(static_cast<double>(std::time(nullptr)));
}

std::string utc_text(double seconds) {
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(static_cast<std::time_t>(seconds)));
}

}  // namespace tonemend
