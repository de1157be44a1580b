// Signed numbers as people read them; the minus is U+2212 (ISO 80000-1:2009, 7.1: the sign of a number).
#include "record/number_text.h"

#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("A number has one decimal, a true minus, and no sign when it rounds to zero") {
    struct Row {
        double value;
        const char *always, *only_minus;
    };
    const Row rows[] = {{2.13, "+2.1", "2.1"},     {-2.16, "−2.2", "−2.2"}, {0, "0.0", "0.0"},
                        {-0.0, "0.0", "0.0"},      {0.04, "0.0", "0.0"},    {-0.04, "0.0", "0.0"},
                        {-0.06, "−0.1", "−0.1"},   {0.06, "+0.1", "0.1"},   {99.96, "+100.0", "100.0"},
                        {-12.34, "−12.3", "−12.3"}};
    for (const Row& row : rows) {
        INFO(row.value);
        CHECK(number_text(row.value, Sign::always) == row.always);
        CHECK(number_text(row.value, Sign::only_minus) == row.only_minus);
    }
}
