#include "base/elementary/double_double.h"
#include "base/elementary/elementary.h"

namespace lobewright::elementary {
namespace {

/// (arcsin x - x) / x of x^2 = z <= 1/4, the relative error of x + x * this below 2^-57.
double beyond_x(double z) {
    constexpr double coefficients[]{
        0x1.dc183de9f5f9ep-6, -0x1.f58cb2747d2dbp-7, 0x1.22055d6c84f7dp-6, 0x1.5e28eff7e0a6ep-8,
        0x1.532a956285eb2p-7, 0x1.7801018c5f203p-7,  0x1.c9d30ad161337p-7, 0x1.1c4d112c87acep-6,
        0x1.6e8bb37525415p-6, 0x1.f1c71c11ded8ep-6,  0x1.6db6db6e48604p-5, 0x1.3333333332da2p-4,
        0x1.5555555555556p-3,
    };
    double sum = 0.0;
    for (const double c : coefficients)
        sum = sum * z + c;
    return sum * z;
}

/// arcsin of sqrt((1 - x) / 2), half the arccosine of x, for x in [1/2, 1].
DoubleDouble half_arccosine(double x) {
    const double z = 0.5 * (1.0 - x), root = std::sqrt(z);
    if (root == 0.0) return {};
    const DoubleDouble square = exact_product(root, root);
    return {root, ((z - square.hi) - square.lo) / (2.0 * root) + root * beyond_x(z)};
}

/// from - twice a
double less_twice(DoubleDouble from, DoubleDouble a) {
    const DoubleDouble sum = exact_sum_of_ordered(from.hi, -2.0 * a.hi);
    return sum.hi + (sum.lo + (from.lo - 2.0 * a.lo));
}

constexpr double tiny = 0x1p-28;

}  // namespace

double asin(double x) {
    const double size = std::abs(x);
    if (size < tiny) return x;
    if (size <= 0.5) return x + x * beyond_x(x * x);
    return std::copysign(less_twice(half_pi_parts, half_arccosine(size)), x);
}

double acos(double x) {
    if (std::abs(x) <= 0.5) {
        const DoubleDouble most = exact_sum_of_ordered(half_pi_parts.hi, -x);
        return most.hi + (most.lo + (half_pi_parts.lo - x * beyond_x(x * x)));
    }
    const DoubleDouble half = half_arccosine(std::abs(x));
    return x > 0.0 ? 2.0 * (half.hi + half.lo) : less_twice(pi_parts, half);
}

}  // namespace lobewright::elementary
