#include "table_spline.h"

#include "banded_least_squares.h"
#include "base/elementary/elementary.h"
#include "motion_piece.h"
#include "quintic_spline.h"
#include "roots.h"
#include "table_readings.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace lobewright {
namespace {

/// x plus as many periods as bring it to [from, from + period).
double reduced(double x, double from, double period) {
    return x - period * std::floor((x - from) / period);
}

/// The value of one equation's left side.
double value_of(const SplineRow& row, const std::vector<double>& coefficients) {
    double value = 0.0;
    for (std::size_t i = 0; i < row.coefficients.size(); ++i) {
        value += row.coefficients[i] * coefficients[(row.first + i) % coefficients.size()];
    }
    return value;
}

/// The stretch of cam angle that the spline covers, with its knots.
struct Stretch {
    std::vector<double> knots;
    QuinticBasis::Ends ends = QuinticBasis::Ends::open;
};

/// How far beyond the last reading at zero lift the spline may begin. Within `smoothing` of zero the readings
/// can't tell where the lift begins; a take-off with the cube of the angle (one with a step in jerk) reaches
/// 8 times the height in twice the way, so that the way from `quiet` to 8 `quiet` leads back to it.
double take_off(double at_zero, double next, double at_eight_quiet) {
    return std::max(next - at_zero, at_eight_quiet - at_zero);
}

/// Knots at the readings of the event; before and behind it as many more as the vanishing ends take up, and
/// two.
Stretch event_stretch(const OrderedReadings& ordered, double period, double quiet) {
    const auto& r = ordered.readings;
    const double before = r[ordered.first - 1].angle;
    const double behind = ordered.last + 1 < r.size() ? r[ordered.last + 1].angle : r.front().angle + period;
    std::size_t up = ordered.first, down = ordered.last;
    while (r[up].lift < 8.0 * quiet && up < ordered.last)
        ++up;
    while (r[down].lift < 8.0 * quiet && down > ordered.first)
        --down;

    const double room = 0.45 * (period - (behind - before));
    const double first_step = r[ordered.first].angle - before;
    const double last_step = behind - r[ordered.last].angle;
    const double lead = std::min(room, take_off(before, r[ordered.first].angle, r[up].angle));
    const double trail = std::min(room, take_off(-behind, -r[ordered.last].angle, -r[down].angle));
    const int lead_knots = static_cast<int>(std::ceil(lead / first_step - 1e-6)) + 2;
    const int trail_knots = static_cast<int>(std::ceil(trail / last_step - 1e-6)) + 2;

    Stretch stretch;
    for (int i = lead_knots; i > 0; --i)
        stretch.knots.push_back(before - lead * i / lead_knots);
    stretch.knots.push_back(before);
    for (std::size_t i = ordered.first; i <= ordered.last; ++i)
        stretch.knots.push_back(r[i].angle);
    stretch.knots.push_back(behind);
    for (int i = 1; i <= trail_knots; ++i)
        stretch.knots.push_back(behind + trail * i / trail_knots);
    return stretch;
}

Stretch stretch_of(const OrderedReadings& ordered, double period, double quiet) {
    if (ordered.base_circle) return event_stretch(ordered, period, quiet);
    Stretch ring{{}, QuinticBasis::Ends::ring};
    for (const OrderedReading& r : ordered.readings)
        ring.knots.push_back(r.angle);
    ring.knots.push_back(ring.knots.front() + period);
    return ring;
}

/// A smoothing spline: the least of Σ (move of a reading)² + weight · ∫ (fourth derivative)², the angle
/// counted in lengths of the whole stretch so that the weight means the same for every lobe. Readings that it
/// would move too far are held at the edge of what they may move.
class SmoothingFit {
  public:
    SmoothingFit(const TableProfile& table, const Stretch& stretch, double period);

    [[nodiscard]] const QuinticBasis& basis() const { return basis_; }
    /// The spline's coefficients, with no reading moved by more than `limit`.
    [[nodiscard]] std::vector<double> within(double limit);

  private:
    struct FittedReading {
        SplineRow row;
        double lift = 0.0;
        bool held = false;  // at `edge`, with a force of its own
        double edge = 0.0;
    };
    /// What generalised cross-validation makes of a weight.
    struct Score {
        double value = 0.0;
        bool too_free = false;  // the spline has nearly as many freedoms as there are readings
    };

    void add_readings(const TableProfile& table, double period);
    void add_roughness();
    [[nodiscard]] BandedLeastSquares system(double weight, double hold) const;
    [[nodiscard]] Score cross_validation(double weight) const;
    [[nodiscard]] double best_weight() const;
    double hold_at_edges(const std::vector<double>& coefficients, double edge);

    QuinticBasis basis_;
    std::vector<FittedReading> readings_;
    std::vector<SplineRow> roughness_;
};

SmoothingFit::SmoothingFit(const TableProfile& table, const Stretch& stretch, double period)
    : basis_(stretch.knots, stretch.ends) {
    add_readings(table, period);
    add_roughness();
}

/// Readings outside the stretch lie on the base circle: the spline is 0 there, whatever it does.
void SmoothingFit::add_readings(const TableProfile& table, double period) {
    const double start = basis_.knots().front();
    const bool ring = basis_.ends() == QuinticBasis::Ends::ring;
    for (const Reading& reading : table.readings) {
        const double x = reduced(reading.cam_angle.radians(), start, period);
        if (ring || (x > start && x < basis_.knots().back()))
            readings_.push_back({basis_.row(x, 0), reading.lift});
    }
}

/// The integral as a sum of squares, exact: the fourth derivative is linear between two knots, its square of
/// degree 2, and Gauss's two points do.
void SmoothingFit::add_roughness() {
    constexpr int order = 4;
    const auto& knots = basis_.knots();
    const double whole = knots.back() - knots.front();
    for (std::size_t i = 0; i + 1 < knots.size(); ++i) {
        const double half = 0.5 * (knots[i + 1] - knots[i]);
        for (const double side : {-1.0, 1.0}) {
            SplineRow row = basis_.row(knots[i] + half * (1.0 + side / std::sqrt(3.0)), order);
            const double scale = elementary::power(whole, order) * std::sqrt(half / whole);
            for (double& c : row.coefficients)
                c *= scale;
            roughness_.push_back(std::move(row));
        }
    }
}

/// All equations, in the order that costs least: rows that wrap round a ring first, then along the stretch.
BandedLeastSquares SmoothingFit::system(double weight, double hold) const {
    struct Equation {
        const SplineRow* row;
        double factor;
        double value;
        std::size_t place;
    };
    std::vector<Equation> equations;
    const auto put = [&](const SplineRow& row, double factor, double value) {
        const bool wraps = row.first + row.coefficients.size() > basis_.size();
        equations.push_back({&row, factor, value, wraps ? 0 : row.first});
    };
    for (const FittedReading& r : readings_) {
        put(r.row, 1.0, r.lift);
        if (r.held) put(r.row, std::sqrt(hold), r.edge);
    }
    for (const SplineRow& row : roughness_)
        put(row, std::sqrt(weight), 0.0);
    std::stable_sort(equations.begin(), equations.end(),
                     [](const Equation& a, const Equation& b) { return a.place < b.place; });

    BandedLeastSquares system(basis_.size(), spline_degree + 1, basis_.ends());
    for (const Equation& e : equations) {
        std::vector<double> scaled = e.row->coefficients;
        for (double& c : scaled)
            c *= e.factor;
        system.add(e.row->first, scaled, e.factor * e.value);
    }
    return system;
}

/// Craven and Wahba's generalised cross-validation (1979): Σ move² / (readings - freedoms)², least where the
/// spline would best foretell a reading that was left out. The freedoms count 1.4 times, as Kim and Gu (2004)
/// advise against the odd fit that follows the noise (both from memory).
SmoothingFit::Score SmoothingFit::cross_validation(double weight) const {
    constexpr double caution = 1.4;
    const BandedLeastSquares equations = system(weight, 0.0);
    const std::vector<double> coefficients = equations.solve();
    double squares = 0.0, freedoms = 0.0;
    for (const FittedReading& r : readings_) {
        const double move = value_of(r.row, coefficients) - r.lift;
        squares += move * move;
        freedoms += equations.leverage(r.row.first, r.row.coefficients);
    }
    const auto count = static_cast<double>(readings_.size());
    const double left = count - caution * freedoms;
    return {squares / (left * left), left < 0.1 * count};
}

/// The weight that the readings' own scatter asks for: from a curve too stiff for any lobe downwards.
double SmoothingFit::best_weight() const {
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

/// Marks the readings that are moved beyond `edge` as held there, lets the others go; the largest move.
double SmoothingFit::hold_at_edges(const std::vector<double>& coefficients, double edge) {
    double largest = 0.0;
    for (FittedReading& r : readings_) {
        const double move = value_of(r.row, coefficients) - r.lift;
        largest = std::max(largest, std::abs(move));
        r.held = std::abs(move) > edge;
        r.edge = r.lift + (move > 0.0 ? edge : -edge);
    }
    return largest;
}

/// The hold grows until it is strong enough. Held a little inside the limit, so that it need not be endless.
std::vector<double> SmoothingFit::within(double limit) {
    const double weight = best_weight();
    const double edge = 0.99 * limit;
    std::vector<double> coefficients;
    constexpr double strongest = 1e60;
    for (double hold = 1.0; hold < strongest; hold *= 2.0) {
        coefficients = system(weight, hold).solve();
        if (hold_at_edges(coefficients, edge) <= limit) break;
    }
    return coefficients;
}

/// Where the spline is largest.
double peak_of(const QuinticSpline& spline) {
    constexpr int parts = 4;  // of an interval between knots, against a maximum between two of them
    const auto& knots = spline.knots();
    double best = knots.front(), step = 0.0;
    for (std::size_t i = 0; i + 1 < knots.size(); ++i) {
        for (int k = 0; k < parts; ++k) {
            const double width = (knots[i + 1] - knots[i]) / parts;
            const double x = knots[i] + k * width;
            if (spline.at(x).lift > spline.at(best).lift) best = x, step = width;
        }
    }
    const auto velocity = [&spline](double x) { return spline.at(x).velocity; };
    double low = best - step, high = best + step;
    while (velocity(low) < 0.0)
        low -= step;
    while (velocity(high) > 0.0)
        high += step;
    return root_of(velocity, low, high);
}

/// The peak, or, where three readings and more are within `band` of the highest, the middle of that dwell.
double middle_of_peak(const QuinticSpline& spline, double peak, double band) {
    const auto& knots = spline.knots();
    double highest = 0.0;
    for (const double knot : knots)
        highest = std::max(highest, spline.at(knot).lift);
    const auto above = [&](double x) { return spline.at(x).lift - (highest - band); };
    std::vector<double> dwell;
    for (const double knot : knots) {
        if (above(knot) >= 0.0) dwell.push_back(knot);
    }
    if (dwell.size() < 3) return peak;
    const double step = 0.1 * (dwell[1] - dwell[0]);
    double low = dwell.front(), high = dwell.back();
    while (above(low - step) > 0.0)
        low -= step;
    while (above(high + step) > 0.0)
        high += step;
    return 0.5 * (root_of(above, low - step, low) + root_of(above, high, high + step));
}

/// Whether the table's angles already count from the peak: its 0 is as high, within what a reading may move,
/// or as near as half the way between two readings.
bool zero_is_peak(const QuinticSpline& spline, double peak, double period, double band) {
    const double zero = reduced(0.0, spline.knots().front(), period);
    if (spline.at(zero).lift >= spline.at(peak).lift - band) return true;
    const auto& knots = spline.knots();
    const auto after = std::upper_bound(knots.begin() + 1, knots.end() - 1, peak);
    return std::abs(zero - peak) <= 0.5 * (*after - *(after - 1));
}

/// The event and the base circle as pieces over the period; a stretch that crosses its ends is cut there.
std::vector<MotionPiece> pieces_of(const std::shared_ptr<const QuinticSpline>& spline, const TableFit& fit,
                                   double period) {
    const double opens = fit.opens.radians(), closes = fit.closes.radians();
    const double shift = fit.shift.radians(), start = spline->knots().front();
    const auto event = [&](const char* name, double from, double to) {
        return MotionPiece{name, from, to,
                           [=](double alpha) { return spline->at(reduced(alpha + shift, start, period)); },
                           [=](const Interval& alpha) {
                               const double way = alpha.middle() + shift;
                               return spline->within(alpha + (reduced(way, start, period) - alpha.middle()));
                           }};
    };
    const MotionPiece stretches[] = {event("opening flank", opens, 0.0), event("closing flank", 0.0, closes),
                                     standing_piece("base circle", closes, opens + period, 0.0)};
    std::vector<MotionPiece> pieces;
    for (const double turn : {-period, 0.0, period}) {
        for (MotionPiece piece : stretches) {
            piece.start = std::max(piece.start + turn, -0.5 * period);
            piece.end = std::min(piece.end + turn, 0.5 * period);
            if (piece.start < piece.end) pieces.push_back(std::move(piece));
        }
    }
    return pieces;
}

}  // namespace

Outcome<TableFit> fit_table(const TableProfile& table, double period_radians, Units units) {
    const auto ordered = order_readings(table, period_radians, units);
    if (!ordered) return ordered.diagnostics();
    const double quiet = std::max(table.smoothing, table_resolution);
    const Stretch stretch = stretch_of(*ordered, period_radians, quiet);
    SmoothingFit smoothing(table, stretch, period_radians);
    const auto spline = std::make_shared<const QuinticSpline>(smoothing.basis(), smoothing.within(quiet));

    TableFit fit;
    const double peak = peak_of(*spline);
    const double start = spline->knots().front();
    fit.lift = spline->at(peak).lift;
    if (!zero_is_peak(*spline, peak, period_radians, quiet)) {
        fit.shift = CamAngle::from_radians(middle_of_peak(*spline, peak, quiet));
    }
    const double opens = reduced(start - fit.shift.radians(), -period_radians, period_radians);
    fit.opens = CamAngle::from_radians(opens);
    fit.closes = CamAngle::from_radians(opens + spline->knots().back() - start);
    fit.pieces = pieces_of(spline, fit, period_radians);
    for (const Reading& reading : table.readings) {
        const double moved =
            spline->at(reduced(reading.cam_angle.radians(), start, period_radians)).lift - reading.lift;
        if (std::abs(moved) > fit.moved) fit.moved = std::abs(moved), fit.moved_at = reading.place;
    }
    return fit;
}

}  // namespace lobewright
