#pragma once

// Catch2 v3 split its single header and renamed the matchers; the tests are written for both.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
inline auto contains(const std::string& text) {
    return Catch::Matchers::ContainsSubstring(text);
}
#else
#include <catch2/catch.hpp>
inline auto contains(const std::string& text) {
    return Catch::Contains(text);
}
#endif
