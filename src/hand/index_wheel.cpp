#include "hand/index_wheel.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

/// `value` brought into [0, period).
double folded(double value, double period) {
    const double rest = value - period * std::floor(value / period);
    return rest >= period ? 0.0 : rest;
}

IndexWheel with_divisions(IndexWheel wheel, int divisions) {
    wheel.divisions = divisions;
    return wheel;
}

bool on_mark(ShaftAngle error) {
    return error.degrees() <= mark_tolerance_degrees;
}

}  // namespace

ShaftAngle IndexWheel::facing(double mark) const {
    return zero + ShaftAngle::from_degrees(sign_of(counts) * mark * step_degrees());
}

double IndexWheel::mark_of(ShaftAngle facing) const {
    return folded(sign_of(counts) * (facing - zero).degrees() / step_degrees(), divisions);
}

double IndexWheel::nearest_setting(ShaftAngle facing) const {
    const double exact = mark_of(facing);
    if (!vernier) return folded(static_cast<double>(nearest_step(exact)), divisions);
    const double fine = vernier->degrees() / step_degrees();  // of a division
    const double mark = std::floor(exact);
    const double past = static_cast<double>(nearest_step((exact - mark) / fine)) * fine;
    const double lower = past < 1.0 ? mark + past : mark + (std::ceil(1.0 / fine) - 1.0) * fine;
    const double setting = std::abs(lower - exact) <= mark + 1.0 - exact ? lower : mark + 1.0;
    return folded(setting, divisions);
}

BestZero best_zero(const IndexWheel& wheel, const std::vector<ShaftAngle>& wanted) {
    std::vector<double> places;  // within a division
    for (const ShaftAngle angle : wanted)
        places.push_back(folded(wheel.mark_of(angle), 1.0));
    std::sort(places.begin(), places.end());
    double gap = places.front() + 1.0 - places.back();
    double middle = places.back() + gap / 2.0;
    for (std::size_t i = 1; i < places.size(); ++i) {
        if (places[i] - places[i - 1] <= gap) continue;
        gap = places[i] - places[i - 1];
        middle = places[i - 1] + gap / 2.0;
    }
    double shift = folded(middle + 0.5, 1.0);  // marks lie opposite the widest gap
    if (shift > 0.5) shift -= 1.0;
    const auto degrees = [&](double marks) { return ShaftAngle::from_degrees(marks * wheel.step_degrees()); };
    return {degrees(sign_of(wheel.counts) * shift), degrees((1.0 - gap) / 2.0)};
}

ShaftAngle worst_error(const IndexWheel& wheel, const std::vector<ShaftAngle>& wanted) {
    double worst = 0.0;
    for (const ShaftAngle angle : wanted) {
        const double mark = wheel.mark_of(angle);
        worst = std::max(worst, std::abs(mark - static_cast<double>(nearest_step(mark))));
    }
    return ShaftAngle::from_degrees(worst * wheel.step_degrees());
}

WheelsWithAllMarks wheels_with_all_marks(const IndexWheel& wheel, const std::vector<ShaftAngle>& wanted) {
    WheelsWithAllMarks wheels;
    for (int divisions = 1; divisions <= largest_wheel; ++divisions) {
        const IndexWheel candidate = with_divisions(wheel, divisions);
        if (on_mark(worst_error(candidate, wanted)))
            wheels.as_zero_stands.push_back(divisions);
        else if (on_mark(best_zero(candidate, wanted).worst))
            wheels.with_zero_turned.push_back(divisions);
    }
    return wheels;
}

NearestWheel nearest_wheel(const IndexWheel& wheel, const std::vector<ShaftAngle>& wanted) {
    NearestWheel nearest{1, best_zero(with_divisions(wheel, 1), wanted)};
    for (int divisions = 2; divisions <= largest_wheel; ++divisions) {
        const BestZero zero = best_zero(with_divisions(wheel, divisions), wanted);
        if (zero.worst.degrees() < nearest.zero.worst.degrees() - 1e-9) nearest = {divisions, zero};
    }
    return nearest;
}

}  // namespace lobewright
