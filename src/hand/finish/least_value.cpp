#include "hand/finish/least_value.h"

#include <algorithm>

namespace lobewright::hand {
namespace {

constexpr double golden = 0.6180339887498949;

/// Of one valley, to the last digit of its place: a valley with an edge, where two cuts meet, gives away as
/// much as its place is missed by.
double by_golden_section(const std::function<double(double)>& function, double low, double high) {
    constexpr int steps = 72;  // golden^72 = 9e-16
    const auto left = [&] { return high - golden * (high - low); };
    const auto right = [&] { return low + golden * (high - low); };
    double at_left = function(left()), at_right = function(right()), least = std::min(at_left, at_right);
    for (int i = 0; i < steps; ++i) {
        if (at_left < at_right) {
            high = right(), at_right = at_left, at_left = function(left());
        } else {
            low = left(), at_left = at_right, at_right = function(right());
        }
        least = std::min({least, at_left, at_right});
    }
    return least;
}

}  // namespace

double least_value(const std::function<double(double)>& function, double low, double high) {
    constexpr int samples = 64;
    const auto at = [&](int i) { return low + (high - low) * i / samples; };
    int best = 0;
    double value = function(low);
    for (int i = 1; i <= samples; ++i) {
        const double here = function(at(i));
        if (here < value) value = here, best = i;
    }
    return std::min(value,
                    by_golden_section(function, at(std::max(0, best - 1)), at(std::min(samples, best + 1))));
}

}  // namespace lobewright::hand
