#pragma once

#include <cstdio>

#include "tests/catch.h"
#include "tests/support/quantile.h"

/// Prints the worst error and checks it: at most `bound`, and at least a twentieth of it, so that a bound
/// that is too loose to mean anything fails as well.
inline void check_tight(const char* what, double worst, double bound) {
    std::printf("  %s: worst %.3g, bound %.3g\n", what, worst, bound);
    INFO(what << ": " << worst << " against " << bound);
    CHECK(worst <= bound);
    CHECK(worst >= bound / 20);
}
