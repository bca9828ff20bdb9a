/// Taylor series, cut off: a formula written once gives its value and as many derivatives as are asked for,
/// exact (Griewank and Walther, Evaluating Derivatives, chapter 13, from memory). Over intervals they are
/// bounds of value and derivatives on a stretch.
#pragma once

#include "base/interval_arithmetic.h"

#include <lobewright/angle.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <tuple>
#include <utility>

namespace lobewright {

/// Value and derivatives up to the Nth by one variable: c[k] is the kth over k!. S: double or Interval.
template <class S, std::size_t N>
struct Taylor {
    std::array<S, N + 1> c{};

    constexpr Taylor() = default;
    constexpr Taylor(double constant) : c{S(constant)} {}  // NOLINT: meant to be implicit
    /// The variable itself, at x.
    static constexpr Taylor variable(const S& x) {
        Taylor made;
        made.c[0] = x, made.c[1] = S(1.0);
        return made;
    }

    constexpr Taylor& operator+=(const Taylor& b) {
        for (std::size_t k = 0; k <= N; ++k)
            c[k] = c[k] + b.c[k];
        return *this;
    }
    constexpr Taylor& operator*=(double factor) {
        for (S& each : c)
            each = factor * each;
        return *this;
    }
    friend constexpr Taylor operator+(Taylor a, const Taylor& b) { return a += b; }
    friend constexpr Taylor operator-(Taylor a) { return a *= -1.0; }
    friend constexpr Taylor operator-(const Taylor& a, const Taylor& b) { return a + -b; }
    friend constexpr Taylor operator*(Taylor a, double factor) { return a *= factor; }
    friend constexpr Taylor operator*(double factor, Taylor a) { return a *= factor; }
    friend constexpr Taylor operator/(Taylor a, double divisor) {
        for (S& each : a.c)
            each = each / divisor;
        return a;
    }
    friend constexpr Taylor operator+(Taylor a, double b) { return a.c[0] = a.c[0] + b, a; }
    friend constexpr Taylor operator+(double b, Taylor a) { return a.c[0] = b + a.c[0], a; }
    friend constexpr Taylor operator-(Taylor a, double b) { return a.c[0] = a.c[0] - b, a; }
    friend constexpr Taylor operator-(double b, const Taylor& a) { return b + -a; }

    friend constexpr Taylor operator*(const Taylor& a, const Taylor& b) {
        Taylor product;
        for (std::size_t k = 0; k <= N; ++k) {
            product.c[k] = a.c[0] * b.c[k];
            for (std::size_t i = 1; i <= k; ++i)
                product.c[k] = product.c[k] + a.c[i] * b.c[k - i];
        }
        return product;
    }
    friend constexpr Taylor operator/(const Taylor& a, const Taylor& b) {
        Taylor quotient;
        for (std::size_t k = 0; k <= N; ++k) {
            S rest = a.c[k];
            for (std::size_t i = 0; i < k; ++i)
                rest = rest - quotient.c[i] * b.c[k - i];
            quotient.c[k] = rest / b.c[0];
        }
        return quotient;
    }
    friend constexpr Taylor operator/(double a, const Taylor& b) { return Taylor(a) / b; }
};

constexpr double square(double a) {
    return a * a;
}
/// Of intervals closer than a product, whose factors know nothing of each other.
template <class S, std::size_t N>
constexpr Taylor<S, N> square(const Taylor<S, N>& a) {
    Taylor<S, N> product = a * a;
    product.c[0] = square(a.c[0]);
    return product;
}

/// x to a whole power >= 0.
template <class T>
constexpr T whole_power(T x, int power) {
    T result(1.0);
    for (; power > 0; power >>= 1, x = square(x))
        if ((power & 1) != 0) result = result * x;
    return result;
}

template <class S, std::size_t N>
Taylor<S, N> sqrt(const Taylor<S, N>& a) {
    using std::sqrt;
    Taylor<S, N> root;
    root.c[0] = sqrt(a.c[0]);
    for (std::size_t k = 1; k <= N; ++k) {
        S rest = a.c[k];
        for (std::size_t i = 1; i < k; ++i)
            rest = rest - root.c[i] * root.c[k - i];
        root.c[k] = rest / (2.0 * root.c[0]);
    }
    return root;
}

inline std::pair<double, double> sine_and_cosine(double a) {
    const auto [sine, cosine] = elementary::sine_and_cosine(a);
    return {sine, cosine};
}
inline std::pair<Interval, Interval> sine_and_cosine(const Interval& a) {
    const SineCosine both = sine_cosine(a);
    return {both.sine, both.cosine};
}
template <class S, std::size_t N>
std::pair<Taylor<S, N>, Taylor<S, N>> sine_and_cosine(const Taylor<S, N>& a) {
    Taylor<S, N> sine, cosine;
    std::tie(sine.c[0], cosine.c[0]) = sine_and_cosine(a.c[0]);
    for (std::size_t k = 1; k <= N; ++k) {
        S s(0.0), c(0.0);
        for (std::size_t j = 1; j <= k; ++j) {
            const S slope = static_cast<double>(j) * a.c[j];
            s = s + slope * cosine.c[k - j], c = c - slope * sine.c[k - j];
        }
        sine.c[k] = s / static_cast<double>(k), cosine.c[k] = c / static_cast<double>(k);
    }
    return {sine, cosine};
}

/// The series with this value and this derivative, whose last coefficient does not count.
template <class S, std::size_t N>
Taylor<S, N> integral(const S& value, const Taylor<S, N>& slope) {
    Taylor<S, N> whole;
    whole.c[0] = value;
    for (std::size_t k = 1; k <= N; ++k)
        whole.c[k] = slope.c[k - 1] / static_cast<double>(k);
    return whole;
}
/// The derivative, but for its last coefficient, which stays 0.
template <class S, std::size_t N>
Taylor<S, N> slope_of(const Taylor<S, N>& a) {
    Taylor<S, N> slope;
    for (std::size_t k = 1; k <= N; ++k)
        slope.c[k - 1] = static_cast<double>(k) * a.c[k];
    return slope;
}

inline double arccosine(double a) {
    return elementary::acos(a);
}
template <class S, std::size_t N>
Taylor<S, N> arccosine(const Taylor<S, N>& a) {
    return integral(arccosine(a.c[0]), -slope_of(a) / sqrt(1.0 - square(a)));
}

/// Radians less the whole turns in it (in its middle).
inline double near_zero(double radians) {
    return wrapped_radians(radians);
}
inline Interval near_zero(const Interval& radians) {
    if (!is_bounded(radians)) return any_number;
    return radians + (wrapped_radians(radians.middle()) - radians.middle());
}
template <class S, std::size_t N>
Taylor<S, N> near_zero(Taylor<S, N> radians) {
    radians.c[0] = near_zero(radians.c[0]);
    return radians;
}

inline double direction(double x, double y) {
    return elementary::atan2(y, x);
}
template <class S, std::size_t N>
Taylor<S, N> direction(const Taylor<S, N>& x, const Taylor<S, N>& y) {
    return integral(direction(x.c[0], y.c[0]), (x * slope_of(y) - y * slope_of(x)) / (square(x) + square(y)));
}

}  // namespace lobewright
