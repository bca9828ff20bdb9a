#include "profile/fullest/successive_lifts.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

/// The greatest excess of the limits that are not linear.
double bent_excess(const FullestTask& task, const LiftSpline& spline) {
    double greatest = -1.0;
    for (const LiftLimit& limit : task.limits)
        if (!limit.linear) greatest = std::max(greatest, greatest_excess(limit, spline));
    return greatest;
}

class Steps {
  public:
    Steps(const FullestTask& task, const std::vector<double>& knots, Aim aim, Care care)
        : task_(task), knots_(knots), aim_(aim), rough_(care == Care::rough) {}

    std::optional<LimitedLift> from(const LiftSpline* known) {
        auto best = limited_lift(task_, knots_, aim_, {known, 0.0, false});
        if (!best) return std::nullopt;
        const double size = std::max(task_.lift.value_or(0.0), best->spline.at(task_.peak).lift);
        double trust = 0.0;
        for (int step = 0; step < most_steps; ++step) {
            auto next = limited_lift(task_, knots_, aim_, {&best->spline, trust, !rough_});
            if (!next) break;
            const double moved = distance(next->spline, best->spline);
            const double gain = worth(*next) - worth(*best);
            const bool arrived = moved < precision() * size || std::abs(gain) < 1e-3 * precision() * size;
            if (gain > 0.0 || arrived) best = std::move(next);
            if (arrived) break;
            trust = gain > 0.0 ? 2.0 * trust : moved / 3.0;
        }
        const double allowed = rough_ ? rough_excess : 0.0;
        if (aim_ != Aim::excess && bent_excess(task_, best->spline) > allowed) return std::nullopt;
        return best;
    }

  private:
    /// Of the lift.
    [[nodiscard]] double precision() const { return rough_ ? 1e-3 : 1e-8; }
    /// The aim, less what excess costs.
    [[nodiscard]] double worth(const LimitedLift& lift) const {
        const double excess = bent_excess(task_, lift.spline);
        if (aim_ == Aim::excess) return -std::max(excess, lift.excess);
        const double reached =
            aim_ == Aim::area ? lift.spline.area() / task_.end : lift.spline.at(task_.peak).lift;
        return reached - cost * std::max(0.0, excess) * task_.lift.value_or(1.0);
    }
    [[nodiscard]] double distance(const LiftSpline& a, const LiftSpline& b) const {
        double largest = 0.0;
        for (const double knot : knots_)
            largest = std::max(largest, std::abs(a.at(knot).lift - b.at(knot).lift));
        return largest;
    }

    static constexpr int most_steps = 40;
    static constexpr double rough_excess = 0.01;
    static constexpr double cost = 300.0;
    const FullestTask& task_;
    const std::vector<double>& knots_;
    Aim aim_;
    bool rough_;
};

}  // namespace

bool is_linear(const FullestTask& task) {
    return std::all_of(task.limits.begin(), task.limits.end(),
                       [](const LiftLimit& limit) { return limit.linear; });
}

std::optional<LimitedLift> lift_by_steps(const FullestTask& task, const std::vector<double>& knots, Aim aim,
                                         Care care, const LiftSpline* known) {
    return is_linear(task) ? limited_lift(task, knots, aim) : Steps(task, knots, aim, care).from(known);
}

}  // namespace lobewright::profile
