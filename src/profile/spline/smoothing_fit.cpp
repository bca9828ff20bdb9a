#include "profile/spline/smoothing_fit.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace lobewright::profile {
namespace {

/// The value of one equation's left side.
double value_of(const SplineRow& row, const std::vector<double>& coefficients) {
    double value = 0.0;
    for (std::size_t i = 0; i < row.coefficients.size(); ++i) {
        value += row.coefficients[i] * coefficients[(row.first + i) % coefficients.size()];
    }
    return value;
}

std::vector<SplineRow> rows_of(const QuinticBasis& basis, const std::vector<FitReading>& readings) {
    std::vector<SplineRow> rows;
    rows.reserve(readings.size());
    for (const FitReading& r : readings)
        rows.push_back(basis.row(r.angle, 0));
    return rows;
}

}  // namespace

SmoothingFit::SmoothingFit(const std::vector<FitReading>& readings, const TableKnots& knots)
    : basis_(knots.knots, knots.ends),
      readings_(readings),
      rows_(rows_of(basis_, readings)),
      fit_(reading_equations()),
      roughness_(roughness_equations()),
      rotations_(fit_.rotations() + roughness_.rotations()) {}

/// In the order that costs least: rows that wrap round a ring first, then along the stretch.
BandedLeastSquares SmoothingFit::system_of(const std::vector<SplineRow>& rows,
                                           const std::vector<double>& values) const {
    const auto place = [&](std::size_t i) {
        return rows[i].first + rows[i].coefficients.size() > basis_.size() ? 0 : rows[i].first;
    };
    std::vector<std::size_t> order(rows.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return place(a) < place(b); });
    BandedLeastSquares system(basis_.size(), spline_degree + 1, basis_.ends());
    for (const std::size_t i : order)
        system.add(rows[i].first, rows[i].coefficients, values[i]);
    return system;
}

BandedLeastSquares SmoothingFit::reading_equations() const {
    std::vector<double> lifts;
    lifts.reserve(readings_.size());
    for (const FitReading& r : readings_)
        lifts.push_back(r.lift);
    return system_of(rows_, lifts);
}

/// The integral as a sum of squares, exact: the fourth derivative is linear between two knots, its square of
/// degree 2, and Gauss's two points do.
BandedLeastSquares SmoothingFit::roughness_equations() const {
    constexpr int order = 4;
    const auto& knots = basis_.knots();
    const double whole = knots.back() - knots.front();
    std::vector<SplineRow> rows;
    for (std::size_t i = 0; i + 1 < knots.size(); ++i) {
        const double half = 0.5 * (knots[i + 1] - knots[i]);
        for (const double side : {-1.0, 1.0}) {
            SplineRow row = basis_.row(knots[i] + half * (1.0 + side / std::sqrt(3.0)), order);
            const double scale = elementary::power(whole, order) * std::sqrt(half / whole);
            for (double& c : row.coefficients)
                c *= scale;
            rows.push_back(std::move(row));
        }
    }
    return system_of(rows, std::vector<double>(rows.size()));
}

BandedLeastSquares SmoothingFit::combined(double weight) {
    const BandedLeastSquares::Part parts[] = {{&fit_, 1.0}, {&roughness_, weight}};
    auto system = BandedLeastSquares::combined(parts);
    rotations_ += system.rotations();
    return system;
}

SmoothingFit::Coefficients SmoothingFit::free(double weight) {
    return combined(weight).solve();
}

SmoothingFit::Score SmoothingFit::cross_validation(double weight) {
    constexpr double caution = 1.4;
    const BandedLeastSquares equations = combined(weight);
    const double squares = fit_.squares_at(equations.solve());
    const double freedoms = fit_.freedoms_in(InverseBand(equations));
    const auto count = static_cast<double>(readings_.size());
    const double left = count - caution * freedoms;
    return {squares / (left * left), left < 0.1 * count};
}

double SmoothingFit::best_weight() {
    double best = 1.0;
    Score least = cross_validation(best);
    constexpr double half_a_decade = 0.31622776601683794;
    double weight = best;
    for (int i = 0; i < 48; ++i) {
        weight *= half_a_decade;
        const Score score = cross_validation(weight);
        if (score.too_free) break;
        if (score.value < least.value) best = weight, least = score;
    }
    return best;
}

std::vector<double> SmoothingFit::moves(const Coefficients& coefficients) const {
    std::vector<double> moves;
    moves.reserve(rows_.size());
    for (std::size_t i = 0; i < rows_.size(); ++i)
        moves.push_back(value_of(rows_[i], coefficients) - readings_[i].lift);
    return moves;
}

bool SmoothingFit::within_limits(const std::vector<double>& moves) const {
    for (std::size_t i = 0; i < moves.size(); ++i) {
        if (std::abs(moves[i]) > readings_[i].limit) return false;
    }
    return true;
}

/// Of the readings that are moved beyond the edge of their limits, to be there. A little inside, so that the
/// force need not be endless.
BandedLeastSquares SmoothingFit::edges(const std::vector<double>& moves) const {
    constexpr double inside = 0.99;
    std::vector<SplineRow> rows;
    std::vector<double> values;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        const double edge = inside * readings_[i].limit;
        if (std::abs(moves[i]) <= edge) continue;
        rows.push_back(rows_[i]);
        values.push_back(readings_[i].lift + (moves[i] > 0.0 ? edge : -edge));
    }
    return system_of(rows, values);
}

std::optional<SmoothingFit::Coefficients> SmoothingFit::held_within(double weight) {
    constexpr int most_rounds = 40;
    Coefficients coefficients = free(weight);
    double force = 1.0;
    for (int round = 0; round < most_rounds; ++round, force *= 4.0) {
        const std::vector<double> now = moves(coefficients);
        if (within_limits(now)) return coefficients;
        const BandedLeastSquares held = edges(now);
        const BandedLeastSquares::Part parts[] = {{&fit_, 1.0}, {&roughness_, weight}, {&held, force}};
        const auto system = BandedLeastSquares::combined(parts);
        rotations_ += held.rotations() + system.rotations();
        coefficients = system.solve();
    }
    return std::nullopt;
}

SmoothingFit::Coefficients SmoothingFit::stiffest_within(double weight) {
    constexpr int most_rounds = 20;
    Coefficients coefficients = free(weight);
    for (int round = 0; round < most_rounds && !within_limits(moves(coefficients)); ++round) {
        weight *= 0.01;
        coefficients = free(weight);
    }
    return coefficients;
}

namespace {

/// The angles of readings that are moved too far, ascending.
std::vector<double> places_moved_too_far(const std::vector<FitReading>& readings,
                                         const std::vector<double>& moves) {
    std::vector<double> places;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        if (std::abs(moves[i]) > readings[i].limit) places.push_back(readings[i].angle);
    }
    return places;
}

/// Whether one of the places lies from the one angle to the other.
IsFine where_any_of(std::vector<double> places) {
    return [places = std::move(places)](double from, double to) {
        const auto first = std::lower_bound(places.begin(), places.end(), from);
        return first != places.end() && *first <= to;
    };
}

double largest(const std::vector<double>& moves) {
    double most = 0.0;
    for (const double move : moves)
        most = std::max(most, std::abs(move));
    return most;
}

}  // namespace

SmoothedCurve smoothed_curve(const OrderedReadings& ordered, const std::vector<FitReading>& readings) {
    SmoothedCurve curve;
    const auto take = [&curve](const SmoothingFit& fit, const SmoothingFit::Coefficients& coefficients) {
        curve.spline = std::make_shared<const QuinticSpline>(fit.basis(), coefficients);
        curve.rotations += fit.rotations();
        return curve;
    };
    SmoothingFit coarse(readings, table_knots(ordered, [](double, double) { return false; }));
    const double weight = coarse.best_weight();
    const auto free_moves = coarse.moves(coarse.free(weight));
    curve.scatter = largest(free_moves);
    if (const auto held = coarse.held_within(weight)) return take(coarse, *held);

    const TableKnots all = table_knots(ordered, [](double, double) { return true; });
    if (all.knots.size() == coarse.basis().knots().size())
        return take(coarse, coarse.stiffest_within(weight));
    curve.rotations = coarse.rotations();
    constexpr std::size_t most_knots = 3;  // for one of before: with more it is no bend, but scatter
    const TableKnots local = table_knots(ordered, where_any_of(places_moved_too_far(readings, free_moves)));
    if (local.knots.size() > most_knots * coarse.basis().knots().size()) return curve;
    SmoothingFit finer(readings, local);
    if (const auto held = finer.held_within(weight)) return take(finer, *held);
    curve.rotations += finer.rotations();
    return curve;
}

}  // namespace lobewright::profile
