#include "profile/roots.h"

#include <lobewright/valve_train.h>

namespace lobewright {
namespace profile {
namespace {

/// A slope at an inner point that keeps both neighbours rising: Brodlie's weighted harmonic mean.
double mean_slope(double before, double after, double step_before, double step_after) {
    const double weight = (step_before + 2.0 * step_after) / (3.0 * (step_before + step_after));
    return before * after / (weight * after + (1.0 - weight) * before);
}

/// One cubic of the curve, from a point to the next.
struct Stretch {
    ValveLift from, to;
    double slope_from = 0.0, slope_to = 0.0;

    [[nodiscard]] double share(double lift) const {
        return (lift - from.follower) / (to.follower - from.follower);
    }
    [[nodiscard]] double valve(double lift) const {
        const double t = share(lift), step = to.follower - from.follower, rest = 1.0 - t;
        return from.valve * (1.0 + 2.0 * t) * rest * rest + to.valve * t * t * (3.0 - 2.0 * t) +
               step * t * rest * (slope_from * rest - slope_to * t);
    }
    [[nodiscard]] double slope(double lift) const {
        const double t = share(lift), mean = (to.valve - from.valve) / (to.follower - from.follower);
        return 6.0 * mean * t * (1.0 - t) + slope_from * (1.0 - t) * (1.0 - 3.0 * t) +
               slope_to * t * (3.0 * t - 2.0);
    }
};

double secant(const std::vector<ValveLift>& points, std::size_t i) {
    return (points[i + 1].valve - points[i].valve) / (points[i + 1].follower - points[i].follower);
}

/// The curve's slope at a point; at both ends that of the chord.
double slope_at_point(const std::vector<ValveLift>& points, std::size_t i) {
    if (i == 0) return secant(points, 0);
    if (i + 1 == points.size()) return secant(points, i - 1);
    return mean_slope(secant(points, i - 1), secant(points, i), points[i].follower - points[i - 1].follower,
                      points[i + 1].follower - points[i].follower);
}

/// The stretch that starts at the last point not above; the last one for all beyond.
Stretch stretch_of(const std::vector<ValveLift>& points, double ValveLift::*measure, double value) {
    std::size_t i = 0;
    while (i + 2 < points.size() && points[i + 1].*measure <= value)
        ++i;
    return {points[i], points[i + 1], slope_at_point(points, i), slope_at_point(points, i + 1)};
}

}  // namespace
}  // namespace profile

double valve_lift_of(const Follower& follower, double lift) {
    if (follower.valve_lift.empty()) return follower.valve_ratio * lift;
    const auto stretch = profile::stretch_of(follower.valve_lift, &ValveLift::follower, lift);
    const double beyond = std::max(0.0, lift - stretch.to.follower);
    return stretch.valve(lift - beyond) + stretch.slope_to * beyond;
}

double lift_for_valve(const Follower& follower, double valve_lift) {
    if (follower.valve_lift.empty()) return valve_lift / follower.valve_ratio;
    const auto stretch = profile::stretch_of(follower.valve_lift, &ValveLift::valve, valve_lift);
    if (valve_lift >= stretch.to.valve)
        return stretch.to.follower + (valve_lift - stretch.to.valve) / stretch.slope_to;
    return profile::root_of([&](double lift) { return stretch.valve(lift) - valve_lift; },
                            stretch.from.follower, stretch.to.follower);
}

double valve_ratio_at(const Follower& follower, double lift) {
    if (follower.valve_lift.empty()) return follower.valve_ratio;
    const auto stretch = profile::stretch_of(follower.valve_lift, &ValveLift::follower, lift);
    return lift >= stretch.to.follower ? stretch.slope_to : stretch.slope(lift);
}

}  // namespace lobewright
