#include "refusal.h"

#include <algorithm>

#include "tests/catch.h"

namespace tonemend::testing {

void check_refused(const CommandResult& result, const std::string& culprit, const std::string& cure) {
    UNSCOPED_INFO(result.err);
    CHECK(result.status == 1);
    CHECK(result.out == "");
    CHECK(result.err.starts_with("tonemend: "));
    CHECK(std::count(result.err.begin(), result.err.end(), '\n') == 1);
    CHECK(result.err.ends_with('\n'));
    CHECK_THAT(result.err, contains(culprit));
    CHECK_THAT(result.err, contains(cure));
}

}  // namespace tonemend::testing
