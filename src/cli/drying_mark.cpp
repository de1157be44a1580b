#include "cli/drying_mark.h"

#include <fmt/format.h>

#include <algorithm>

#include "picture/input_error.h"
#include "picture/text_line.h"
#include "picture/time_taken.h"
#include "record/drying_log.h"
#include "record/utc_time.h"

namespace tonemend {

void mark_if_settling(Comparison& comparison, const std::filesystem::path& picture, const std::string& log) {
    const DryingWatch watch = read_drying_log(log).replay();
    const double taken = time_taken(picture).seconds;
    if (watch.empty() || taken < watch.begin())
        throw InputError(fmt::format(
            "{}: {}; give the log of that surface's drying, or leave --drying away", one_line(log, 300),
            watch.empty() ? std::string("holds no reading")
                          : fmt::format("begins at {}, after {} was taken at {}", utc_text(watch.begin()),
                                        one_line(picture.string(), 200), utc_text(taken))));
    const auto warning = warn_of_settling(watch.report_at(taken));
    if (!warning) return;
    auto& warnings = comparison.warnings;
    const auto after_unfit =
        std::find_if(warnings.begin(), warnings.end(), [](const Warning& other) { return !other.unfit; });
    warnings.insert(warning->unfit ? warnings.begin() : after_unfit, *warning);
}

}  // namespace tonemend
