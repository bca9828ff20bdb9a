/// Sums and products with what their rounding left (Dekker, A floating-point technique for extending the
/// available precision, 1971; Knuth, The Art of Computer Programming 2, 4.2.2).
#pragma once

#include "base/double_bits.h"

#include <cfloat>
#include <cmath>
#include <cstdint>
#include <limits>

namespace lobewright::elementary {

static_assert(std::numeric_limits<double>::is_iec559 && FLT_EVAL_METHOD == 0,
              "the same bits everywhere need IEEE doubles, rounded after every operation");
#ifdef __FAST_MATH__
#error "the same bits everywhere need sums and products in the order in which they are written"
#endif

/// hi + lo, not rounded.
struct DoubleDouble {
    double hi = 0.0;
    double lo = 0.0;
};

inline DoubleDouble exact_sum(double a, double b) {
    const double sum = a + b, of_b = sum - a;
    return {sum, (a - (sum - of_b)) + (b - of_b)};
}
/// Required: |a| >= |b|, or a is 0.
inline DoubleDouble exact_sum_of_ordered(double a, double b) {
    const double sum = a + b;
    return {sum, b - (sum - a)};
}

/// a without its last 27 bits: 26 are left.
inline double upper_half(double a) {
    constexpr std::uint64_t kept = ~((std::uint64_t{1} << 27) - 1);
    return double_of_bits(bits_of(a) & kept);
}
/// Required: no product of halves overflows or falls under the smallest normal double.
inline DoubleDouble exact_product(double a, double b) {
    const double ah = upper_half(a), al = a - ah, bh = upper_half(b), bl = b - bh;
    const double product = a * b;
    return {product, ((ah * bh - product) + ah * bl + al * bh) + al * bl};
}

inline constexpr DoubleDouble pi_parts{0x1.921fb54442d18p+1, 0x1.1a62633145c07p-53};
inline constexpr DoubleDouble half_pi_parts{0x1.921fb54442d18p+0, 0x1.1a62633145c07p-54};

}  // namespace lobewright::elementary
