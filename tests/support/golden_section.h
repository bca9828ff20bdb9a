/// The least of a function near a sample, for the tests' brute force.
#pragma once

#include <utility>

inline constexpr double golden = 0.6180339887498949;

/// The least of f between a and b, where f(middle) is not above f(a) and f(b); a golden section keeps such a
/// triple.
template <class F>
std::pair<double, double> close_in(F f, double a, double middle, double b, double at_middle, int steps) {
    for (int i = 0; i < steps; ++i) {
        const bool left = middle - a > b - middle;
        const double probe =
            left ? middle - (1.0 - golden) * (middle - a) : middle + (1.0 - golden) * (b - middle);
        const double value = f(probe);
        if (value < at_middle) {
            (left ? b : a) = middle;
            middle = probe;
            at_middle = value;
        } else {
            (left ? a : b) = probe;
        }
    }
    return {middle, at_middle};
}
