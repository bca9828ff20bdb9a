/// A stretch of numbers.
#pragma once

namespace lobewright {

/// All numbers from `low` to `high`, both included; an end may be infinite. A single number is one, too.
struct Interval {
    double low = 0.0;
    double high = 0.0;

    constexpr Interval() = default;
    constexpr Interval(double number) : low(number), high(number) {}  // NOLINT: meant to be implicit
    constexpr Interval(double lowest, double highest) : low(lowest), high(highest) {}

    [[nodiscard]] constexpr double middle() const { return 0.5 * (low + high); }
    [[nodiscard]] constexpr double width() const { return high - low; }
    [[nodiscard]] constexpr bool contains(double number) const { return low <= number && number <= high; }
};

}  // namespace lobewright
