/// The largest area under linear limits by another way than the house's: the jerk in even cells, every limit
/// at their ends alone, by the dual programme and the tests' own simplex.
#pragma once

#include "dense_simplex.h"

#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace largest_area {

/// Weight × derivative of that order of the lift at an angle.
struct Term {
    double angle = 0.0;
    int order = 0;
    double weight = 0.0;
};
/// Σ terms <= bound, or = bound.
struct Bound {
    std::vector<Term> terms;
    double bound = 0.0;
    bool exact = false;
};
/// From lift and velocity at angle 0, without acceleration; |jerk| <= jerk.
struct Question {
    double end = 0.0;
    double lift = 0.0, velocity = 0.0;
    double jerk = 0.0;
    std::vector<Bound> bounds;
};

/// What jerk at θ does to the derivative of that order at `angle`, and the integral of it over [from, to].
inline double kernel(const Term& term, double theta) {
    const double ahead = term.angle - theta;
    if (ahead <= 0.0) return 0.0;
    return term.weight * (term.order == 0 ? 0.5 * ahead * ahead : term.order == 1 ? ahead : 1.0);
}
inline double integral(const Term& term, double from, double to) {
    const auto primitive = [&](double theta) {
        const double ahead = std::max(0.0, term.angle - theta);
        const int n = 3 - term.order;
        return -term.weight * std::pow(ahead, n) / (n == 3 ? 6.0 : n == 2 ? 2.0 : 1.0);
    };
    return primitive(to) - primitive(from);
}
/// What lift and velocity at the start do to it.
inline double from_start(const Question& q, const Term& term) {
    if (term.order == 0) return term.weight * (q.lift + q.velocity * term.angle);
    return term.order == 1 ? term.weight * q.velocity : 0.0;
}

struct Answer {
    double best = 0.0;   ///< area of the programme
    double outer = 0.0;  ///< no lift that keeps the bounds, whatever its jerk within the limit, has more
};

/// What the lift's start makes of a bound: what is left of it for the jerk.
inline double rest_of(const Question& q, const Bound& bound) {
    double rest = bound.bound;
    for (const Term& term : bound.terms)
        rest -= from_start(q, term);
    return rest;
}

/// The dual programme in even cells: a price for each bound (two for an exact one) and, both ways, for the
/// jerk of each cell, whose prices must come to what that jerk does to the area.
class DualProgramme {
  public:
    DualProgramme(const Question& q, int cells) : q_(q), cells_(cells), step_(q.end / cells) {
        for (int i = 0; i < cells; ++i) {
            const double from = i * step_, to = from + step_;
            dual_.right.push_back((std::pow(q.end - from, 4) - std::pow(q.end - to, 4)) / 24.0);
        }
        for (const Bound& bound : q.bounds)
            add(bound);
        for (int i = 0; i < cells; ++i)
            add_jerk(static_cast<std::size_t>(i));
    }

    std::optional<Answer> solve() {
        const auto prices = dense::least_cost(dual_, basis_);
        if (!prices) return std::nullopt;
        const double at_start = q_.lift * q_.end + 0.5 * q_.velocity * q_.end * q_.end;
        Answer found{at_start, at_start};
        for (std::size_t k = 0; k < dual_.costs.size(); ++k)
            found.best += dual_.costs[k] * (*prices)[k];
        for (std::size_t k = 0; k < owners_.size(); ++k)
            found.outer += dual_.costs[k] * (*prices)[k];
        found.outer += q_.jerk * what_is_left(*prices);
        return found;
    }

  private:
    void add(const Bound& bound) {
        std::vector<double> column(dual_.right.size(), 0.0);
        for (const Term& term : bound.terms)
            for (std::size_t i = 0; i < column.size(); ++i)
                column[i] +=
                    integral(term, static_cast<double>(i) * step_, static_cast<double>(i + 1) * step_);
        for (const double sign : {1.0, -1.0}) {
            if (sign < 0.0 && !bound.exact) continue;
            dual_.columns.push_back(column);
            for (double& each : dual_.columns.back())
                each *= sign;
            dual_.costs.push_back(sign * rest_of(q_, bound));
            owners_.push_back({&bound, sign});
        }
    }
    void add_jerk(std::size_t cell) {
        for (const double sign : {1.0, -1.0}) {
            if ((dual_.right[cell] >= 0.0) == (sign > 0.0)) basis_.push_back(dual_.columns.size());
            dual_.columns.emplace_back(dual_.right.size(), 0.0);
            dual_.columns.back()[cell] = sign;
            dual_.costs.push_back(q_.jerk);
        }
    }
    /// ∫ |w - Σ λ K|, by the middles of fortieths of the cells.
    [[nodiscard]] double what_is_left(const std::vector<double>& prices) const {
        constexpr int parts = 40;
        double sum = 0.0;
        for (int i = 0; i < cells_ * parts; ++i) {
            const double theta = (i + 0.5) * step_ / parts;
            double left = std::pow(q_.end - theta, 3) / 6.0;
            for (std::size_t k = 0; k < owners_.size(); ++k) {
                if (prices[k] == 0.0) continue;
                for (const Term& term : owners_[k].bound->terms)
                    left -= owners_[k].sign * prices[k] * kernel(term, theta);
            }
            sum += std::abs(left) * step_ / parts;
        }
        return sum;
    }

    struct Owner {
        const Bound* bound;
        double sign;
    };
    const Question& q_;
    int cells_;
    double step_;
    dense::Programme dual_;
    std::vector<std::size_t> basis_;
    std::vector<Owner> owners_;  // of the first columns
};

/// Nothing where the bounds contradict each other. The outer bound is Lagrange's: for prices λ >= 0 of the
/// bounds (of any sign for exact ones), area = ∫ w j + w₀, and each bound's left side ∫ K j + k₀, any lift
/// that keeps them has an area of at most w₀ + Σ λ (bound - k₀) + jerk × ∫ |w - Σ λ K|. That holds for every
/// jerk, not for one that is constant in cells alone, and for any prices; those of the programme make it
/// close.
inline std::optional<Answer> answer(const Question& q, int cells) {
    return DualProgramme(q, cells).solve();
}

}  // namespace largest_area
