/// Catch2, version 2 or 3: every test includes this header and nothing of Catch2's own.
#pragma once

#include <cmath>
#include <string>

#if __has_include(<catch2/catch_test_macros.hpp>)
#include <catch2/benchmark/catch_benchmark.hpp>
#include <catch2/catch_approx.hpp>
#include <catch2/catch_test_macros.hpp>
#include <catch2/generators/catch_generators.hpp>
#include <catch2/generators/catch_generators_range.hpp>
#include <catch2/matchers/catch_matchers_floating_point.hpp>
#include <catch2/matchers/catch_matchers_string.hpp>
using Catch::Matchers::ContainsSubstring;
#else
#define CATCH_CONFIG_ENABLE_BENCHMARKING
#include <catch2/catch.hpp>
inline auto ContainsSubstring(const std::string& part) {
    return Catch::Matchers::Contains(part);
}
#endif

#include "near.h"

/// |value - wanted| <= margin, in the unit of the two; a NaN fails.
#define CHECK_NEAR(value, wanted, margin) CHECK_THAT(static_cast<double>(value), Near((wanted), (margin)))
/// |value - wanted| <= relative x |wanted|; a NaN fails.
#define CHECK_RELATIVE(value, wanted, relative) CHECK_NEAR(value, wanted, (relative)*std::abs(wanted))
