#include "profile/fullest/lift_program.h"

#include "profile/roots.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lobewright::profile {
namespace {

/// The common variables: the excess that is let through, and the lift at the peak.
constexpr std::size_t let_through = 0, peak_lift = 1;
/// Area, as a part of it, that one part of excess costs: far more than any limit is worth.
constexpr double excess_cost = 300.0;
/// Of the largest area or lift, no limit asks for excess below 0 by more than this.
constexpr double least_excess = 1e-3;

double weighted(const Lift& lift, const LiftWeights& weights) {
    return weights[0] * lift.lift + weights[1] * lift.velocity + weights[2] * lift.acceleration +
           weights[3] * lift.jerk;
}

struct Place {
    std::size_t cell = 0;
    double angle = 0.0;
};

/// The weights of a weighted sum's derivative.
LiftWeights slope_weights(const LiftWeights& weights) {
    return {0.0, weights[0], weights[1], weights[2]};
}

/// A weighted sum of a lift is a cubic in its cell: it stays below what the inner two of its four control
/// points stay below over either half, and its ends (Farin, Curves and Surfaces for CAGD, the convex hull of
/// Bernstein's form). Calls see(place, weights, angle) for each of these points inside the cell, as weights
/// of the lift at the half's start.
template <class See>
void for_each_control_point(const LiftSpline& spline, std::size_t cell, const LiftWeights& weights, See see) {
    const LiftWeights slope = slope_weights(weights), bend = slope_weights(slope);
    const double start = spline.knots()[cell], half = 0.5 * (spline.knots()[cell + 1] - start);
    for (const double from : {start, start + half}) {
        for (const double part : {1.0, 2.0}) {
            LiftWeights there = weights;
            for (std::size_t i = 0; i < there.size(); ++i)
                there[i] += part * half / 3.0 * slope[i] + (part - 1.0) * half * half / 6.0 * bend[i];
            see(Place{cell, from}, there, from + part * half / 3.0);
        }
    }
}

/// Calls see(place, excess) at every largest value of a limit inside the cells: where its slope along the
/// lift, tried at quarters, turns from up to down.
template <class See>
void for_each_crest(const LiftSpline& spline, const std::function<Excess(const Lift&)>& limit, See see) {
    constexpr int parts = 4;
    for (std::size_t cell = 0; cell < spline.cells(); ++cell) {
        const auto rise = [&](double angle) {
            const Lift lift = spline.at(cell, angle);
            const LiftWeights slopes = limit(lift).slopes;
            return slopes[0] * lift.velocity + slopes[1] * lift.acceleration + slopes[2] * lift.jerk;
        };
        const double start = spline.knots()[cell], step = (spline.knots()[cell + 1] - start) / parts;
        double before = rise(start);
        for (int i = 1; i <= parts; ++i) {
            const double angle = start + i * step, after = rise(angle);
            if (before > 0.0 && after < 0.0) {
                const double crest = root_of(rise, angle - step, angle);
                see(Place{cell, crest}, limit(spline.at(cell, crest)).value);
            }
            before = after;
        }
    }
}

/// The rows of one task on its knots.
class LiftProgram {
  public:
    LiftProgram(const FullestTask& task, const std::vector<double>& knots, Aim aim, const About& about)
        : task_(task),
          spline_(knots, task.at_start, task.at_end),
          aim_(aim),
          about_(about),
          size_(task.lift.value_or(size_of(task))) {}

    std::optional<LimitedLift> solve() {
        start();
        constexpr int most_rounds = 16;
        std::optional<BandOptimum> best;
        for (int round = 0; round < most_rounds; ++round) {
            best = optimum_of(program_);
            if (!best) return std::nullopt;
            spline_.set_free_coefficients(best->variables);
            let_through_ = best->common[let_through];
            if (!hold_between_knots()) break;
        }
        return LimitedLift{spline_, let_through_, holds_of(*best)};
    }

  private:
    /// A lift to measure by where none is given: about what the deceleration allows.
    static double size_of(const FullestTask& task) {
        double least = 0.0;
        for (const LiftLimit& limit : task.limits)
            least = std::max(least, std::abs(limit.excess(Lift{}).slopes[2]));
        return task.end * task.end / (16.0 * least);
    }

    void start() {
        program_.variables = spline_.free_coefficients();
        program_.common_gain[let_through] = aim_ == Aim::excess ? -1.0 : -excess_cost;
        set_gain();
        hold_peak();
        hold_excess();
        for (std::size_t limit = 0; limit < task_.limits.size(); ++limit)
            hold_everywhere(limit);
        for (std::size_t i = 0; i <= spline_.cells(); ++i)
            hold_near(knot(i));
        for (std::size_t cell = 0; cell < spline_.cells(); ++cell)
            task_.rises ? hold_rising(cell) : hold_below_peak(cell);
    }
    [[nodiscard]] Place knot(std::size_t index) const {
        return {std::min(index, spline_.cells() - 1), spline_.knots()[index]};
    }
    void set_gain() {
        program_.gain.assign(program_.variables, 0.0);
        if (aim_ == Aim::area) {
            program_.gain = spline_.area_weights();
            for (double& each : program_.gain)
                each /= task_.end * size_;
        }
        if (aim_ == Aim::lift) program_.common_gain[peak_lift] = 1.0 / size_;
    }
    /// The lift less that at the peak.
    [[nodiscard]] BandRow less_peak(const Place& place, const LiftWeights& weights) const {
        BandRow row = spline_.row(place.cell, place.angle, weights);
        row.common[peak_lift] = -1.0;
        return row;
    }
    /// The follower stands at the peak, at the task's lift if that has one.
    void hold_peak() {
        const Place peak = knot(spline_.cell_at(task_.peak));
        program_.exactly = {spline_.row(peak.cell, peak.angle, {0.0, 1.0, 0.0, 0.0}),
                            less_peak(peak, {1.0, 0.0, 0.0, 0.0})};
        if (task_.lift && aim_ != Aim::lift) {
            BandRow given;
            given.common[peak_lift] = 1.0;
            given.bound = *task_.lift;
            program_.exactly.push_back(given);
        }
        constexpr double farthest = 100.0;  // of the size; it only keeps the programme's numbers in hand
        for (const double sense : {1.0, -1.0}) {
            BandRow row;
            row.common[peak_lift] = sense / size_;
            row.bound = sense > 0.0 ? farthest : 0.0;
            add(row);
        }
    }
    void hold_excess() {
        BandRow row;
        row.common[let_through] = -1.0;
        row.bound = aim_ == Aim::excess ? least_excess : 0.0;
        add(row);
    }

    /// Nowhere farther from that lift than trusted.
    void hold_near(const Place& place) {
        if (about_.lift == nullptr || !(about_.trust > 0.0)) return;
        const double lift = about_.lift->at(place.angle).lift;
        for (const double sense : {1.0, -1.0}) {
            BandRow row = spline_.row(place.cell, place.angle, {sense, 0.0, 0.0, 0.0});
            row.bound += sense * lift + about_.trust;
            add(scaled(row, 1.0 / about_.trust));
        }
    }
    /// Towards the peak it rises, after it it falls: by limit_margin of its mean speed at least, so that no
    /// rounding turns it where it stands.
    void hold_rising(std::size_t cell) {
        const bool before_peak = spline_.knots()[cell] < task_.peak;
        const LiftWeights falling{0.0, (before_peak ? -1.0 : 1.0) * task_.end / size_, 0.0, 0.0};
        const auto see = [&](const Place& place, const LiftWeights& weights, double) {
            BandRow row = spline_.row(place.cell, place.angle, weights);
            row.bound -= limit_margin;
            add(row);
        };
        if (spline_.knots()[cell] != task_.peak) see(knot(cell), falling, 0.0);
        for_each_control_point(spline_, cell, falling, see);
    }

    /// Between base circle and peak.
    void hold_below_peak(std::size_t cell) {
        const LiftWeights lift{1.0, 0.0, 0.0, 0.0};
        const double next_to_peak = 0.2 * (spline_.knots()[cell + 1] - spline_.knots()[cell]);
        const auto see = [&](const Place& place, const LiftWeights& weights, double angle) {
            BandRow below = scaled(less_peak(place, weights), 1.0 / size_);
            below.bound -= limit_margin;
            // Next to the peak, where the follower stands, the control point is as high as the peak.
            if (!is_constant(below) && std::abs(angle - task_.peak) > next_to_peak) add(below);
            LiftWeights down = weights;
            for (double& each : down)
                each /= -size_;
            add(spline_.row(place.cell, place.angle, down));
        };
        if (spline_.knots()[cell] != task_.peak) see(knot(cell), lift, spline_.knots()[cell]);
        for_each_control_point(spline_, cell, lift, see);
    }

    [[nodiscard]] bool counts(const LiftLimit& limit) const { return limit.linear || about_.lift != nullptr; }
    /// Whether excess of it may be let through.
    [[nodiscard]] bool yields(const LiftLimit& limit) const { return aim_ == Aim::excess || !limit.linear; }
    /// The limit as a plane, its value being that of no lift.
    [[nodiscard]] Excess plane(const LiftLimit& limit, const Place& place) const {
        const Lift near = limit.linear ? Lift{} : about_.lift->at(place.angle);
        Excess there = limit.excess(near);
        there.value -= weighted(near, there.slopes);
        return there;
    }
    void hold_everywhere(std::size_t index) {
        const LiftLimit& limit = task_.limits[index];
        if (!counts(limit)) return;
        const bool by_cell = limit.name == FullestLimit::jerk;
        for (std::size_t i = 0; i < spline_.cells() + (by_cell ? 0 : 1); ++i)
            hold(index, knot(i), plane(limit, knot(i)));
        const Excess flat = limit.excess(Lift{});
        const bool straight = flat.slopes[0] == 0.0 && flat.slopes[1] == 0.0;
        if (!limit.linear || straight) return;
        for (std::size_t cell = 0; cell < spline_.cells(); ++cell) {
            for_each_control_point(spline_, cell, flat.slopes,
                                   [&](const Place& place, const LiftWeights& weights, double) {
                                       hold(index, place, {flat.value, weights});
                                   });
        }
    }
    static double margin_of(const LiftLimit& limit) {
        return limit.linear ? limit_margin : bent_limit_margin;
    }
    void hold(std::size_t index, const Place& place, const Excess& excess) {
        BandRow row = spline_.row(place.cell, place.angle, excess.slopes);
        row.bound -= excess.value + margin_of(task_.limits[index]);
        if (yields(task_.limits[index])) row.common[let_through] = -1.0;
        if (add(row)) held_.push_back({program_.at_most.size() - 1, index, place});
    }

    static BandRow scaled(BandRow row, double factor) {
        for (double& each : row.near)
            each *= factor;
        for (double& each : row.common)
            each *= factor;
        row.bound *= factor;
        return row;
    }
    static bool is_zero(double number) { return number == 0.0; }
    /// No coefficient is free there.
    static bool is_constant(const BandRow& row) {
        return std::all_of(row.near.begin(), row.near.end(), is_zero);
    }
    /// A row without variables says nothing that could be held.
    bool add(const BandRow& row) {
        if (is_constant(row) && std::all_of(row.common.begin(), row.common.end(), is_zero)) return false;
        program_.at_most.push_back(row);
        return true;
    }

    /// What isn't linear is held as a plane wherever it is largest between knots. Whether there was anything
    /// to hold.
    bool hold_between_knots() {
        if (about_.lift == nullptr || !about_.between_knots) return false;
        const std::size_t before = program_.at_most.size();
        for (std::size_t i = 0; i < task_.limits.size(); ++i) {
            const LiftLimit& limit = task_.limits[i];
            if (limit.linear) continue;
            for_each_crest(spline_, limit.excess, [&](const Place& place, double) {
                const Excess there = plane(limit, place);
                const double value =
                    there.value + weighted(spline_.at(place.cell, place.angle), there.slopes);
                if (value > let_through_ - 0.5 * bent_limit_margin) hold(i, place, there);
            });
        }
        return program_.at_most.size() > before;
    }

    [[nodiscard]] std::vector<LimitedLift::Hold> holds_of(const BandOptimum& best) const {
        const double area = spline_.area() / (task_.end * size_);
        std::vector<LimitedLift::Hold> holds;
        for (const Held& held : held_) {
            if (held.row >= best.prices.size()) continue;  // added after the last round
            holds.push_back(
                {held.limit, spline_.at(held.place.cell, held.place.angle), best.prices[held.row] / area});
        }
        return holds;
    }

    struct Held {
        std::size_t row = 0;
        std::size_t limit = 0;
        Place place;
    };
    const FullestTask& task_;
    LiftSpline spline_;
    Aim aim_;
    const About& about_;
    double size_;
    double let_through_ = 0.0;
    BandProgram program_;
    std::vector<Held> held_;
};

}  // namespace

std::optional<LimitedLift> limited_lift(const FullestTask& task, const std::vector<double>& knots, Aim aim,
                                        const About& about) {
    return LiftProgram(task, knots, aim, about).solve();
}

double greatest_excess(const LiftLimit& limit, const LiftSpline& spline) {
    double greatest = -1.0;
    const auto see = [&](double value) { greatest = std::max(greatest, value); };
    for (std::size_t i = 0; i < spline.knots().size(); ++i)
        see(limit.excess(spline.at(std::min(i, spline.cells() - 1), spline.knots()[i])).value);
    if (limit.name != FullestLimit::jerk)
        for_each_crest(spline, limit.excess, [&](const Place&, double value) { see(value); });
    return greatest;
}

}  // namespace lobewright::profile
