#include "law.h"

#include "base/elementary/elementary.h"

#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

constexpr double pi = std::numbers::pi;

/// A sum of c x^p with its derivatives, p >= 0.
struct Term {
    double coefficient;
    int power;
};

double whole_power(double x, int power) {
    double result = 1.0;
    for (; power > 0; power >>= 1, x *= x)
        if ((power & 1) != 0) result *= x;
    return result;
}

void add_term(LawValue& sum, Term term, double x) {
    const double p = term.power, c = term.coefficient;
    sum.s += c * whole_power(x, term.power);
    if (term.power >= 1) sum.ds += c * p * whole_power(x, term.power - 1);
    if (term.power >= 2) sum.dds += c * p * (p - 1.0) * whole_power(x, term.power - 2);
    if (term.power >= 3) sum.ddds += c * p * (p - 1.0) * (p - 2.0) * whole_power(x, term.power - 3);
}

template <std::size_t N>
LawValue polynomial(const Term (&terms)[N], double x) {
    LawValue sum;
    for (const Term term : terms)
        add_term(sum, term, x);
    return sum;
}

LawValue simple_harmonic(double x) {
    const auto [s, c] = elementary::sine_and_cosine(pi * x);
    const double half_sine = elementary::sin(0.5 * pi * x);
    return {half_sine * half_sine, 0.5 * pi * s, 0.5 * pi * pi * c, -0.5 * pi * pi * pi * s};
}

LawValue cycloidal(double x) {
    constexpr double w = 2.0 * pi;
    const auto [s, c] = elementary::sine_and_cosine(w * x);
    return {x - s / w, 1.0 - c, w * s, w * w * c};
}

/// Start of both modified laws, x <= 1/8: the acceleration a sin 4πx grows through a quarter of a wave. At
/// its end the speed is a / 4π and the way a / 4π (1/8 - 1/4π).
LawValue quarter_wave(double a, double x) {
    constexpr double w = 4.0 * pi;
    const auto [s, c] = elementary::sine_and_cosine(w * x);
    return {a / w * (x - s / w), a / w * (1.0 - c), a * s, a * w * c};
}

/// First half. After the quarter wave the acceleration is a cos(4π/3 (x - 1/8)). The way at x = 1/2 is
/// a / 4π (1/8 - 1/4π + 3/8 + 9/4π) and has to be 1/2, hence a = 4π² / (4 + π).
LawValue modified_sine(double x) {
    constexpr double a = 4.0 * pi * pi / (4.0 + pi);
    if (x <= 0.125) return quarter_wave(a, x);
    constexpr double w = 4.0 * pi / 3.0;
    const double y = x - 0.125;
    const auto [s, c] = elementary::sine_and_cosine(w * y);
    const LawValue joint{a / (4.0 * pi) * (0.125 - 1.0 / (4.0 * pi)), a / (4.0 * pi), 0.0, 0.0};
    return {joint.s + joint.ds * y + a / (w * w) * (1.0 - c), joint.ds + a / w * s, a * c, -a * w * s};
}

/// First half. After the quarter wave the acceleration stays a until 3/8, then it is a cos 4π(x - 3/8). The
/// way at x = 1/2 is a (1/8π + 1/16) and has to be 1/2, hence a = 8π / (2 + π).
LawValue modified_trapezoid(double x) {
    constexpr double a = 8.0 * pi / (2.0 + pi), w = 4.0 * pi;
    if (x <= 0.125) return quarter_wave(a, x);
    const double way = a / w * (0.125 - 1.0 / w), speed = a / w;
    if (x <= 0.375) {
        const double y = x - 0.125;
        return {way + speed * y + 0.5 * a * y * y, speed + a * y, a, 0.0};
    }
    const double second_way = way + 0.25 * speed + a / 32.0, second_speed = speed + 0.25 * a;
    const double y = x - 0.375;
    const auto [s, c] = elementary::sine_and_cosine(w * y);
    return {second_way + second_speed * y + a / (w * w) * (1.0 - c), second_speed + a / w * s, a * c,
            -a * w * s};
}

/// The modified laws are their own image, turned half round the middle: S(x) = 1 - S(1 - x).
LawValue both_halves(LawValue (*first_half)(double), double x) {
    if (x <= 0.5) return first_half(x);
    const LawValue mirrored = first_half(1.0 - x);
    return {1.0 - mirrored.s, mirrored.ds, -mirrored.dds, mirrored.ddds};
}

}  // namespace

Law::Law(LawKind kind, const std::vector<int>& powers) : kind_(kind) {
    if (kind != LawKind::power_polynomial) return;
    powers_ = powers;
    coefficients_ = power_coefficients(powers);
}

LawValue Law::at(double x) const {
    static constexpr Term terms_345[] = {{10.0, 3}, {-15.0, 4}, {6.0, 5}};
    static constexpr Term terms_4567[] = {{35.0, 4}, {-84.0, 5}, {70.0, 6}, {-20.0, 7}};
    switch (kind_) {
        case LawKind::simple_harmonic:
            return simple_harmonic(x);
        case LawKind::cycloidal:
            return cycloidal(x);
        case LawKind::polynomial_345:
            return polynomial(terms_345, x);
        case LawKind::polynomial_4567:
            return polynomial(terms_4567, x);
        case LawKind::modified_sine:
            return both_halves(modified_sine, x);
        case LawKind::modified_trapezoid:
            return both_halves(modified_trapezoid, x);
        case LawKind::power_polynomial:
            break;
    }
    LawValue sum{1.0, 0.0, 0.0, 0.0};
    for (std::size_t i = 0; i < powers_.size(); ++i)
        add_term(sum, {coefficients_[i], powers_[i]}, 1.0 - x);
    return {sum.s, -sum.ds, sum.dds, -sum.ddds};
}

LawValue law_value(LawKind law, const std::vector<int>& powers, double x) {
    return Law(law, powers).at(x);
}

std::vector<double> law_joints(LawKind law) {
    if (law == LawKind::modified_sine) return {0.125, 0.875};
    if (law == LawKind::modified_trapezoid) return {0.125, 0.375, 0.625, 0.875};
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
