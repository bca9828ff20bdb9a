/// Sine, arctangent and their kin, with the same bits on every machine.
///
/// C libraries differ in the last bits of these functions, and a job's bytes must not: here are only + - * /
/// and sqrt, which IEEE 754 settles to the last bit, in a fixed order (and std::remainder, which is exact).
/// Nothing else in the house calls the C library's own; a test reads the sources for it.
///
/// Error: below 1 unit in the last place of the result (0.80 is the worst that a search through millions
/// found), for all finite arguments unless a function says otherwise. NaN gives NaN, as do infinite angles.
/// Zeros keep their sign. Angles in radians.
#pragma once

namespace lobewright::elementary {

/// Sine and cosine take |x| to 1e9 as it is. From larger angles whole turns of `full_turn`, the double, are
/// taken off first, exactly: the same everywhere, but away from the sine of x itself by up to x / 2^54.
double sin(double x);
double cos(double x);
double tan(double x);

struct SineAndCosine {
    double sine = 0.0;
    double cosine = 1.0;
};
/// Both of the same angle, the bits of `sin` and `cos`, for the price of little more than one.
SineAndCosine sine_and_cosine(double x);

/// Direction of (x, y), in [-pi, pi]; zeros and infinities as in IEEE 754 (9.2.1).
double atan2(double y, double x);
double atan(double x);
/// NaN outside [-1, 1].
double asin(double x);
double acos(double x);

/// base to a whole power, by multiplication; a negative one is one over the positive. Powers of ten are exact
/// up to 10^22, and correctly rounded down to 10^-22.
double power(double base, int exponent);
/// The power of ten of the first digit of x, written as the shortest decimal that reads back as x. Required:
/// x is finite and not 0.
int decimal_exponent(double x);

}  // namespace lobewright::elementary
