#include "base/elementary/double_double.h"
#include "base/elementary/elementary.h"

#include <lobewright/angle.h>

#include <utility>

namespace lobewright::elementary {
namespace {

/// x = quarters * pi/2 + rest, |rest| <= pi/4 but for rounding.
struct Reduced {
    int quarters = 0;  // modulo 4
    DoubleDouble rest;
};

/// An angle of at most pi/4 and the square of its larger part.
struct Small {
    explicit Small(DoubleDouble angle) : x(angle), square(exact_product(angle.hi, angle.hi)) {}
    DoubleDouble x, square;
};

/// A constant in parts so short that a whole number times each but the last is exact.
using Parts = double[3];

/// `most` - n * (sum of parts), where most holds few enough bits that nothing below its last is lost.
DoubleDouble less(double most, double n, const Parts& parts) {
    const DoubleDouble first = exact_sum(most, -n * parts[0]);
    const DoubleDouble second = exact_sum(first.hi, -n * parts[1]);
    return exact_sum_of_ordered(second.hi, (first.lo + second.lo) - n * parts[2]);
}

/// Adding and taking it off again rounds to a whole number.
constexpr double to_whole = 0x1.8p52;

/// pi/2 = first + rest: 33 bits each, so that products with a whole number below 2^20 are exact (Cody and
/// Waite, Software Manual for the Elementary Functions, 1980).
Reduced reduced_by_parts(double x) {
    constexpr double two_over_pi = 0x1.45f306dc9c883p-1, first = 0x1.921fb544p+0;
    constexpr Parts rest{0x1.0b4611a6p-34, 0x1.3198a2ep-69, 0x1.b839a252049c1p-104};
    const double n = (x * two_over_pi + to_whole) - to_whole;
    return {static_cast<int>(n) & 3, less(x - n * first, n, rest)};
}

/// Off the exact remainder by the double next to pi/2, what that double is short of pi/2: 23 bits each, for
/// whole numbers below 2^30.
Reduced reduced_by_remainder(double x) {
    constexpr Parts short_of{0x1.1a626p-54, 0x1.98a2ep-77, 0x1.b839a252049c1p-104};
    constexpr double as_it_is = 1e9;
    if (std::abs(x) > as_it_is) x = std::remainder(x, full_turn);
    const double most = std::remainder(x, half_pi_parts.hi);
    const double n = ((x - most) / half_pi_parts.hi + to_whole) - to_whole;
    return {static_cast<int>(n) & 3, less(most, n, short_of)};
}

Reduced reduced(double x) {
    constexpr double quarter_pi = 0x1.921fb54442d18p-1, by_parts = 0x1p20;
    const double size = std::abs(x);
    if (size <= quarter_pi) return {0, {x, -0.0}};  // the sum of a zero and -0.0 has the zero's sign
    if (size <= by_parts) return reduced_by_parts(x);
    if (size <= std::numeric_limits<double>::max()) return reduced_by_remainder(x);
    return {0, {std::numeric_limits<double>::quiet_NaN(), 0.0}};
}

/// Below it x is its own sine and tangent.
constexpr double tiny = 0x1p-27;

/// Sine of |x| <= pi/4. The polynomial is x + x^3 S(x^2), the relative error below 2^-56.6.
DoubleDouble sine_of(const Small& small) {
    const auto& [x, square] = small;
    if (std::abs(x.hi) < tiny) return x;
    const double z = square.hi;
    const double s =
        0x1.111111110eaabp-7 +
        z * (-0x1.a01a019aaa0d6p-13 +
             z * (0x1.71de346e1e3e2p-19 + z * (-0x1.ae5dafc29abbdp-26 + z * 0x1.5d639e8e02e55p-33)));
    constexpr double cubic = -0x1.555555555553dp-3;
    const double cube = z * x.hi;
    return {x.hi, cube * (cubic + z * s) + ((x.hi * square.lo) * cubic + x.lo * (1.0 - 0.5 * z))};
}

/// Cosine of |x| <= pi/4. The polynomial is 1 - x^2/2 + x^4 C(x^2), the error below 2^-64.
DoubleDouble cosine_of(const Small& small) {
    const auto& [x, square] = small;
    const double z = square.hi;
    const double c =
        0x1.555555555554cp-5 +
        z * (-0x1.6c16c16c15223p-10 +
             z * (0x1.a01a019cbff91p-16 +
                  z * (-0x1.27e4f81336701p-22 + z * (0x1.1ee9f1b0884d8p-29 - z * 0x1.8fb16372ea42cp-37))));
    const DoubleDouble most = exact_sum_of_ordered(1.0, -0.5 * z);
    return {most.hi, z * z * c + (most.lo - (0.5 * square.lo + x.hi * x.lo))};
}

double rounded(DoubleDouble x) {
    return x.hi + x.lo;
}

/// a / b to the last bit but a few hundredths.
double quotient(DoubleDouble a, DoubleDouble b) {
    a = exact_sum_of_ordered(a.hi, a.lo), b = exact_sum_of_ordered(b.hi, b.lo);
    const double q = a.hi / b.hi;
    const DoubleDouble taken = exact_product(q, b.hi);
    return q + (((a.hi - taken.hi) - taken.lo) + (a.lo - q * b.lo)) / b.hi;
}

}  // namespace

double sin(double x) {
    const auto [quarters, rest] = reduced(x);
    const Small small(rest);
    const double size = rounded((quarters & 1) != 0 ? cosine_of(small) : sine_of(small));
    return (quarters & 2) != 0 ? -size : size;
}

double cos(double x) {
    const auto [quarters, rest] = reduced(x);
    const Small small(rest);
    const double size = rounded((quarters & 1) != 0 ? sine_of(small) : cosine_of(small));
    return ((quarters + 1) & 2) != 0 ? -size : size;
}

double tan(double x) {
    if (std::abs(x) < tiny) return x;
    const auto [quarters, rest] = reduced(x);
    const Small small(rest);
    const DoubleDouble sine = sine_of(small), cosine = cosine_of(small);
    return (quarters & 1) != 0 ? -quotient(cosine, sine) : quotient(sine, cosine);
}

SineAndCosine sine_and_cosine(double x) {
    const auto [quarters, rest] = reduced(x);
    const Small small(rest);
    double sine = rounded(sine_of(small)), cosine = rounded(cosine_of(small));
    if ((quarters & 1) != 0) std::swap(sine, cosine);
    return {(quarters & 2) != 0 ? -sine : sine, ((quarters + 1) & 2) != 0 ? -cosine : cosine};
}

}  // namespace lobewright::elementary
