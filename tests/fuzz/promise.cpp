#include <cstdio>
#include <cstdlib>

#include "target.h"

namespace tonemend::testing {

void require_promise(bool kept, const char* promise) {
    if (kept) return;
    std::fprintf(stderr, "broken promise: %s\n", promise);
    std::abort();
}

}  // namespace tonemend::testing
