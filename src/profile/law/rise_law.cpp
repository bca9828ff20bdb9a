#include "profile/law/rise_law.h"

#include <numbers>

namespace lobewright {
namespace profile {
namespace {

constexpr double pi = std::numbers::pi;

template <class T>
T simple_harmonic(const T& x) {
    return square(sine_and_cosine(0.5 * pi * x).first);
}

template <class T>
T cycloidal(const T& x) {
    constexpr double w = 2.0 * pi;
    return x - sine_and_cosine(w * x).first / w;
}

template <class T>
T polynomial_345(const T& x) {
    return 10.0 * whole_power(x, 3) - 15.0 * whole_power(x, 4) + 6.0 * whole_power(x, 5);
}

template <class T>
T polynomial_4567(const T& x) {
    return 35.0 * whole_power(x, 4) - 84.0 * whole_power(x, 5) + 70.0 * whole_power(x, 6) -
           20.0 * whole_power(x, 7);
}

/// Start of both modified laws, x <= 1/8: the acceleration a sin 4πx grows through a quarter of a wave. At
/// its end the speed is a / 4π and the way a / 4π (1/8 - 1/4π).
template <class T>
T quarter_wave(double a, const T& x) {
    constexpr double w = 4.0 * pi;
    return a / w * (x - sine_and_cosine(w * x).first / w);
}

/// The way of the acceleration a cos wy from rest.
template <class T>
T fading_wave(double a, double w, const T& y) {
    return a / (w * w) * (1.0 - sine_and_cosine(w * y).second);
}

/// First half. After the quarter wave the acceleration is a cos(4π/3 (x - 1/8)). The way at x = 1/2 is
/// a / 4π (1/8 - 1/4π + 3/8 + 9/4π) and has to be 1/2, hence a = 4π² / (4 + π).
template <class T>
T modified_sine(const T& x, double inside) {
    constexpr double a = 4.0 * pi * pi / (4.0 + pi), speed = a / (4.0 * pi);
    if (inside <= 0.125) return quarter_wave(a, x);
    const T y = x - 0.125;
    return speed * (0.125 - 1.0 / (4.0 * pi)) + speed * y + fading_wave(a, 4.0 * pi / 3.0, y);
}

/// First half. After the quarter wave the acceleration stays a until 3/8, then it is a cos 4π(x - 3/8). The
/// way at x = 1/2 is a (1/8π + 1/16) and has to be 1/2, hence a = 8π / (2 + π).
template <class T>
T modified_trapezoid(const T& x, double inside) {
    constexpr double a = 8.0 * pi / (2.0 + pi), w = 4.0 * pi;
    if (inside <= 0.125) return quarter_wave(a, x);
    constexpr double way = a / w * (0.125 - 1.0 / w), speed = a / w;
    if (inside <= 0.375) {
        const T y = x - 0.125;
        return way + speed * y + 0.5 * a * square(y);
    }
    constexpr double second_way = way + 0.25 * speed + a / 32.0, second_speed = speed + 0.25 * a;
    const T y = x - 0.375;
    return second_way + second_speed * y + fading_wave(a, w, y);
}

/// First half: constant acceleration.
template <class T>
T parabolic(const T& x, double /*inside*/) {
    return 2.0 * square(x);
}

/// These laws are their own image, turned half round the middle: S(x) = 1 - S(1 - x).
template <class T>
T both_halves(T (*first_half)(const T&, double), const T& x, double inside) {
    return inside <= 0.5 ? first_half(x, inside) : 1.0 - first_half(1.0 - x, 1.0 - inside);
}

}  // namespace

RiseLaw::RiseLaw(LawKind kind, const std::vector<int>& powers) : kind_(kind) {
    if (kind != LawKind::power_polynomial) return;
    powers_ = powers;
    coefficients_ = power_coefficients(powers);
}

template <class T>
T RiseLaw::formula(const T& x, double inside) const {
    switch (kind_) {
        case LawKind::simple_harmonic:
            return simple_harmonic(x);
        case LawKind::cycloidal:
            return cycloidal(x);
        case LawKind::polynomial_345:
            return polynomial_345(x);
        case LawKind::polynomial_4567:
            return polynomial_4567(x);
        case LawKind::modified_sine:
            return both_halves(modified_sine<T>, x, inside);
        case LawKind::modified_trapezoid:
            return both_halves(modified_trapezoid<T>, x, inside);
        case LawKind::parabolic:
            return both_halves(parabolic<T>, x, inside);
        case LawKind::power_polynomial:
            break;
    }
    T sum(1.0);
    for (std::size_t i = 0; i < powers_.size(); ++i)
        sum += coefficients_[i] * whole_power(1.0 - x, powers_[i]);
    return sum;
}

LiftSeries RiseLaw::rise(const LiftSeries& x, double inside) const {
    return formula(x, inside);
}
LiftBoundSeries RiseLaw::rise(const LiftBoundSeries& x, double inside) const {
    return formula(x, inside);
}

}  // namespace profile

LawValue law_value(LawKind law, const std::vector<int>& powers, double x) {
    using namespace profile;
    const Lift rise = lift_of(RiseLaw(law, powers).rise(LiftSeries::variable(x), x));
    return {rise.lift, rise.velocity, rise.acceleration, rise.jerk};
}

std::vector<double> law_joints(LawKind law) {
    if (law == LawKind::modified_sine) return {0.125, 0.875};
    if (law == LawKind::modified_trapezoid) return {0.125, 0.375, 0.625, 0.875};
    if (law == LawKind::parabolic) return {0.5};
    return {};
}

std::vector<double> power_coefficients(const std::vector<int>& powers) {
    std::vector<double> coefficients;
    for (const int own : powers) {
        double product = -1.0;
        for (const int other : powers)
            if (other != own) product *= static_cast<double>(other) / (other - own);
        coefficients.push_back(product);
    }
    return coefficients;
}

}  // namespace lobewright
