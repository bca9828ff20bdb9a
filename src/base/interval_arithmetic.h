/// Arithmetic of intervals: the result holds every value that the operation makes of numbers from its
/// operands (Moore, Interval Analysis, 1966, from memory). Ends are rounded to nearest, not outwards: they
/// are good to the last bits of the terms that made them, which is enough for bounds that are asked for to a
/// part in 1e10.
#pragma once

#include "base/elementary/elementary.h"

#include <lobewright/interval.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace lobewright {

/// Nothing is known: what an operation gives whose operand reaches outside its domain.
inline constexpr Interval any_number{-std::numeric_limits<double>::infinity(),
                                     std::numeric_limits<double>::infinity()};

constexpr Interval operator-(const Interval& a) {
    return {-a.high, -a.low};
}
constexpr Interval operator+(const Interval& a, const Interval& b) {
    return {a.low + b.low, a.high + b.high};
}
constexpr Interval operator-(const Interval& a, const Interval& b) {
    return {a.low - b.high, a.high - b.low};
}
constexpr bool is_bounded(const Interval& a) {
    return a.low > any_number.low && a.high < any_number.high;
}

constexpr Interval operator*(double a, const Interval& b) {
    if (a == 0.0) return 0.0;
    return a < 0.0 ? Interval{a * b.high, a * b.low} : Interval{a * b.low, a * b.high};
}
constexpr Interval operator*(const Interval& a, double b) {
    return b * a;
}
/// Of an unbounded operand nothing is known (0 × infinity is no number).
constexpr Interval operator*(const Interval& a, const Interval& b) {
    if (a.low == a.high && is_bounded(b)) return a.low * b;
    if (!is_bounded(a) || !is_bounded(b)) return any_number;
    const auto [least, most] = std::minmax({a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high});
    return {least, most};
}
constexpr Interval operator/(const Interval& a, const Interval& b) {
    if (b.contains(0.0) || !is_bounded(b)) return any_number;
    return a * Interval{1.0 / b.high, 1.0 / b.low};
}

/// What both hold; where rounding has parted them, the gap between.
constexpr Interval common(const Interval& a, const Interval& b) {
    const double low = std::max(a.low, b.low), high = std::min(a.high, b.high);
    return low <= high ? Interval{low, high} : Interval{high, low};
}
/// The smallest interval that holds both.
constexpr Interval hull(const Interval& a, const Interval& b) {
    return {std::min(a.low, b.low), std::max(a.high, b.high)};
}

constexpr double middle(double number) {
    return number;
}
constexpr double middle(const Interval& a) {
    return a.middle();
}
constexpr double kept_within(double number, double low, double high) {
    return std::clamp(number, low, high);
}
constexpr Interval kept_within(const Interval& a, double low, double high) {
    return {std::clamp(a.low, low, high), std::clamp(a.high, low, high)};
}

constexpr Interval square(const Interval& a) {
    const double least = a.contains(0.0) ? 0.0 : std::min(a.low * a.low, a.high * a.high);
    return {least, std::max(a.low * a.low, a.high * a.high)};
}
inline Interval sqrt(const Interval& a) {
    return a.low < 0.0 ? any_number : Interval{std::sqrt(a.low), std::sqrt(a.high)};
}
inline Interval arccosine(const Interval& a) {
    return a.low < -1.0 || a.high > 1.0 ? any_number
                                        : Interval{elementary::acos(a.high), elementary::acos(a.low)};
}

/// Sine and cosine.
struct SineCosine {
    Interval sine, cosine;
};
inline SineCosine sine_cosine(const Interval& a) {
    if (!(a.width() < 2.0 * std::numbers::pi)) return {{-1.0, 1.0}, {-1.0, 1.0}};
    const auto range = [&a](double at_low, double at_high, double crest) {
        const auto reaches = [&a](double place) {  // place + a whole number of turns lies in a
            constexpr double turn = 2.0 * std::numbers::pi;
            return place + turn * std::ceil((a.low - place) / turn) <= a.high;
        };
        Interval found{std::min(at_low, at_high), std::max(at_low, at_high)};
        if (reaches(crest)) found.high = 1.0;
        if (reaches(crest + std::numbers::pi)) found.low = -1.0;
        return found;
    };
    const auto [low_sine, low_cosine] = elementary::sine_and_cosine(a.low);
    const auto [high_sine, high_cosine] = elementary::sine_and_cosine(a.high);
    return {range(low_sine, high_sine, 0.5 * std::numbers::pi), range(low_cosine, high_cosine, 0.0)};
}

/// Direction of the vector (x, y) in radians: about that of its middle, so that it may run past ±180 degrees.
/// Nothing is known where the vector may be 0.
inline Interval direction(const Interval& x, const Interval& y) {
    const double mx = x.middle(), my = y.middle();
    double least = 0.0, most = 0.0;
    for (const auto& [cx, cy] :
         {std::pair{x.low, y.low}, {x.low, y.high}, {x.high, y.low}, {x.high, y.high}}) {
        // A corner a right angle or more off the middle: the box may go round the origin.
        if (!(mx * cx + my * cy > 0.0)) return any_number;
        const double turn = elementary::atan2(mx * cy - my * cx, mx * cx + my * cy);
        least = std::min(least, turn), most = std::max(most, turn);
    }
    return elementary::atan2(my, mx) + Interval{least, most};
}

}  // namespace lobewright
