#include "profile/fullest/band_program.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace lobewright::profile {
namespace {

using Vector = std::vector<double>;

double dot(const Vector& a, const Vector& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
        sum += a[i] * b[i];
    return sum;
}

double largest_size(const Vector& a) {
    double size = 0.0;
    for (const double each : a)
        size = std::max(size, std::abs(each));
    return size;
}

/// The common variables are the last of x.
double value_of(const BandRow& row, const Vector& x) {
    const double* common = x.data() + x.size() - commons;
    double sum = 0.0;
    for (std::size_t i = 0; i < band_width; ++i)
        sum += row.near[i] * x[row.first + i];
    for (std::size_t j = 0; j < commons; ++j)
        sum += row.common[j] * common[j];
    return sum;
}

/// sum += factor × row.
void add_row(Vector& sum, const BandRow& row, double factor) {
    double* common = sum.data() + sum.size() - commons;
    for (std::size_t i = 0; i < band_width; ++i)
        sum[row.first + i] += factor * row.near[i];
    for (std::size_t j = 0; j < commons; ++j)
        common[j] += factor * row.common[j];
}

/// Part of a row of the triangle: from its diagonal on, and those of the common variables.
struct TriangleRow {
    std::array<double, band_width> near{};
    std::array<double, commons> common{};
};

/// The triangle R of R'R = A'WA: four diagonals, and last columns for the common variables. Rows come in the
/// order of their first variables, so that none fills the triangle up behind its own.
class Triangle {
  public:
    explicit Triangle(std::size_t variables) : rows_(variables + commons) {}

    void add(const BandRow& row, double weight) {
        const double root = std::sqrt(weight);
        TriangleRow rest;
        for (std::size_t k = 0; k < band_width; ++k)
            rest.near[k] = root * row.near[k];
        for (std::size_t j = 0; j < commons; ++j)
            rest.common[j] = root * row.common[j];
        for (std::size_t i = row.first; i < row.first + band_width; ++i) {
            turn(rows_[i], rest, rows_[i].near[0], rest.near[0]);
            rest.near = {rest.near[1], rest.near[2], rest.near[3], 0.0};
        }
        for (std::size_t j = 0; j < commons; ++j) {
            TriangleRow& last = rows_[near() + j];
            turn(last, rest, last.common[j], rest.common[j]);
        }
    }
    /// x of R'x = right.
    void solve_transposed(Vector& x) const {
        for (std::size_t i = 0; i < near(); ++i) {
            for (std::size_t k = 1; k < band_width && k <= i; ++k)
                x[i] -= rows_[i - k].near[k] * x[i - k];
            x[i] /= rows_[i].near[0];
            for (std::size_t j = 0; j < commons; ++j)
                x[near() + j] -= rows_[i].common[j] * x[i];
        }
        for (std::size_t j = 0; j < commons; ++j) {
            for (std::size_t before = 0; before < j; ++before)
                x[near() + j] -= rows_[near() + before].common[j] * x[near() + before];
            x[near() + j] /= rows_[near() + j].common[j];
        }
    }
    /// x of R x = right.
    void solve(Vector& x) const {
        for (std::size_t j = commons; j-- > 0;) {
            for (std::size_t after = j + 1; after < commons; ++after)
                x[near() + j] -= rows_[near() + j].common[after] * x[near() + after];
            x[near() + j] /= rows_[near() + j].common[j];
        }
        for (std::size_t i = near(); i-- > 0;) {
            for (std::size_t j = 0; j < commons; ++j)
                x[i] -= rows_[i].common[j] * x[near() + j];
            for (std::size_t k = 1; k < band_width && i + k < near(); ++k)
                x[i] -= rows_[i].near[k] * x[i + k];
            x[i] /= rows_[i].near[0];
        }
    }

  private:
    [[nodiscard]] std::size_t near() const { return rows_.size() - commons; }

    /// Turns both rows so that what stands at `away` becomes 0 and what stands at `to` takes its size.
    static void turn(TriangleRow& row, TriangleRow& rest, double to, double away) {
        if (away == 0.0) return;
        const double size = std::sqrt(to * to + away * away);
        const double cosine = to / size, sine = away / size;
        const auto both = [&](double& a, double& b) {
            const double kept = cosine * a + sine * b;
            b = cosine * b - sine * a;
            a = kept;
        };
        for (std::size_t k = 0; k < band_width; ++k)
            both(row.near[k], rest.near[k]);
        for (std::size_t j = 0; j < commons; ++j)
            both(row.common[j], rest.common[j]);
    }

    std::vector<TriangleRow> rows_;
};

/// Gauss's elimination, for the few equations.
void solve_small(std::vector<Vector> a, Vector& b) {
    const std::size_t size = b.size();
    for (std::size_t i = 0; i < size; ++i) {
        for (std::size_t k = i + 1; k < size; ++k) {
            const double factor = a[k][i] / a[i][i];
            for (std::size_t j = i; j < size; ++j)
                a[k][j] -= factor * a[i][j];
            b[k] -= factor * b[i];
        }
    }
    for (std::size_t i = size; i-- > 0;) {
        for (std::size_t j = i + 1; j < size; ++j)
            b[i] -= a[i][j] * b[j];
        b[i] /= a[i][i];
    }
}

/// A'WA x + E'y = right, E x = exact.
class NormalEquations {
  public:
    NormalEquations(const BandProgram& program, const std::vector<std::size_t>& order, const Vector& weights)
        : triangle_(program.variables) {
        for (const std::size_t k : order)
            triangle_.add(program.at_most[k], weights[k]);
        for (const BandRow& row : program.exactly) {
            Vector column(program.variables + commons, 0.0);
            add_row(column, row, 1.0);
            triangle_.solve_transposed(column);
            columns_.push_back(std::move(column));
        }
        for (const Vector& a : columns_) {
            corner_.emplace_back();
            for (const Vector& b : columns_)
                corner_.back().push_back(dot(a, b));
        }
    }

    /// `x` from right side to solution; `exact` from that of the equations to their y.
    void solve(Vector& x, Vector& exact) const {
        triangle_.solve_transposed(x);
        for (std::size_t e = 0; e < exact.size(); ++e)
            exact[e] = dot(columns_[e], x) - exact[e];
        solve_small(corner_, exact);
        for (std::size_t e = 0; e < exact.size(); ++e)
            for (std::size_t i = 0; i < x.size(); ++i)
                x[i] -= exact[e] * columns_[e][i];
        triangle_.solve(x);
    }

  private:
    Triangle triangle_;
    std::vector<Vector> columns_, corner_;
};

/// What is left of a row to its bound, or what its price takes of the gain, with the way to go.
struct Pair {
    Vector slack, price;
};

/// The part of the way along the step that leaves everything above 0, no more than 2.
double room(const Vector& at, const Vector& step) {
    double part = 2.0;
    for (std::size_t i = 0; i < at.size(); ++i)
        if (step[i] < 0.0) part = std::min(part, -at[i] / step[i]);
    return part;
}

class InteriorPoint {
  public:
    explicit InteriorPoint(const BandProgram& program)
        : program_(program),
          rows_(program.at_most.size()),
          x_(program.variables + commons, 0.0),
          exact_prices_(program.exactly.size(), 0.0),
          order_(rows_),
          at_(Pair{Vector(rows_, 1.0), Vector(rows_, 1.0)}) {
        std::iota(order_.begin(), order_.end(), 0);
        std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
            return program.at_most[a].first < program.at_most[b].first;
        });
        for (std::size_t k = 0; k < rows_; ++k)
            at_.slack[k] = std::max(1.0, std::abs(program.at_most[k].bound));
    }

    std::optional<BandOptimum> solve() {
        constexpr int most_steps = 100;
        std::optional<BandOptimum> near;
        for (int step = 0; step < most_steps; ++step) {
            measure();
            if (is_within(program_gap)) return found();
            if (!std::isfinite(gap_)) break;
            if (is_within(1e3 * program_gap)) near = found();
            advance();
        }
        return near;
    }

  private:
    /// How far it is from the best: what rows, equations and prices don't come to, and the gap between them.
    void measure() {
        short_.assign(rows_, 0.0), off_.assign(exact_prices_.size(), 0.0);
        unpaid_ = program_.gain;
        unpaid_.insert(unpaid_.end(), program_.common_gain.begin(), program_.common_gain.end());
        gain_ = dot(unpaid_, x_);
        for (std::size_t k = 0; k < rows_; ++k) {
            const BandRow& row = program_.at_most[k];
            short_[k] = row.bound - value_of(row, x_) - at_.slack[k];
            add_row(unpaid_, row, -at_.price[k]);
        }
        for (std::size_t e = 0; e < off_.size(); ++e) {
            const BandRow& row = program_.exactly[e];
            off_[e] = row.bound - value_of(row, x_);
            add_row(unpaid_, row, -exact_prices_[e]);
        }
        gap_ = dot(at_.slack, at_.price);
    }
    [[nodiscard]] bool is_within(double part) const {
        constexpr double row_error = 3e-10, price_error = 1e-6;
        return gap_ <= part * (1.0 + std::abs(gain_)) && largest_size(short_) <= row_error &&
               largest_size(off_) <= row_error && largest_size(unpaid_) <= price_error;
    }

    struct Way {
        Vector x, exact_prices;
        Pair pair;
    };
    /// The way to go if slack × price is to become `aim` - `crossed` everywhere.
    [[nodiscard]] Way way_to(const NormalEquations& equations, double aim, const Vector& crossed) const {
        Way way{unpaid_, off_, {Vector(rows_), Vector(rows_)}};
        Vector rest(rows_);
        for (std::size_t k = 0; k < rows_; ++k) {
            const double slack = at_.slack[k], price = at_.price[k];
            rest[k] = (aim - crossed[k] - slack * price - price * short_[k]) / slack;
            add_row(way.x, program_.at_most[k], -rest[k]);
        }
        equations.solve(way.x, way.exact_prices);
        for (std::size_t k = 0; k < rows_; ++k) {
            const double moved = value_of(program_.at_most[k], way.x);
            way.pair.slack[k] = short_[k] - moved;
            way.pair.price[k] = rest[k] + at_.price[k] / at_.slack[k] * moved;
        }
        return way;
    }

    void advance() {
        Vector weights(rows_), crossed(rows_, 0.0);
        for (std::size_t k = 0; k < rows_; ++k)
            weights[k] = at_.price[k] / at_.slack[k];
        const NormalEquations equations(program_, order_, weights);
        const Pair guess = way_to(equations, 0.0, crossed).pair;
        const double slack_part = std::min(1.0, room(at_.slack, guess.slack));
        const double price_part = std::min(1.0, room(at_.price, guess.price));
        double after = 0.0;
        for (std::size_t k = 0; k < rows_; ++k) {
            after +=
                (at_.slack[k] + slack_part * guess.slack[k]) * (at_.price[k] + price_part * guess.price[k]);
            crossed[k] = guess.slack[k] * guess.price[k];
        }
        const double share = after / gap_;
        const double aim = std::max(0.1 * program_gap, gap_ * share * share * share);
        go(way_to(equations, aim / static_cast<double>(rows_), crossed));
    }
    void go(const Way& way) {
        constexpr double nearly = 0.995;  // of the way to a bound
        const double slack_part = std::min(1.0, nearly * room(at_.slack, way.pair.slack));
        const double price_part = std::min(1.0, nearly * room(at_.price, way.pair.price));
        for (std::size_t i = 0; i < x_.size(); ++i)
            x_[i] += slack_part * way.x[i];
        for (std::size_t e = 0; e < exact_prices_.size(); ++e)
            exact_prices_[e] += price_part * way.exact_prices[e];
        for (std::size_t k = 0; k < rows_; ++k) {
            at_.slack[k] += slack_part * way.pair.slack[k];
            at_.price[k] += price_part * way.pair.price[k];
        }
    }

    [[nodiscard]] BandOptimum found() const {
        const auto common = x_.end() - commons;
        BandOptimum best{Vector(x_.begin(), common), {}, at_.price};
        std::copy(common, x_.end(), best.common.begin());
        return best;
    }

    const BandProgram& program_;
    std::size_t rows_;
    Vector x_, exact_prices_;
    std::vector<std::size_t> order_;
    Pair at_;
    Vector short_, off_, unpaid_;
    double gain_ = 0.0, gap_ = 0.0;
};

}  // namespace

std::optional<BandOptimum> optimum_of(const BandProgram& program) {
    return InteriorPoint(program).solve();
}

}  // namespace lobewright::profile
