#include "profile/readings/reading_limits.h"

#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

constexpr double smallest_step = 2.0 * table_resolution;  // below, half a step is no change

/// All steps that are looked for, the largest first.
std::vector<double> known_steps() {
    constexpr double largest_step = 0.1;
    std::vector<double> steps;
    for (const double unit : {1.0, 25.4}) {
        for (double power = 0.1; unit * power > 0.1 * smallest_step; power /= 10.0) {
            for (const double times : {5.0, 2.0, 1.0})
                steps.push_back(unit * power * times);
        }
    }
    std::erase_if(steps, [](double s) {
        return s > largest_step + lift_rounding || s < smallest_step - lift_rounding;
    });
    std::sort(steps.begin(), steps.end(), std::greater<>());
    return steps;
}

bool is_multiple(double lift, double step) {
    return std::abs(lift - step * static_cast<double>(nearest_step(lift / step))) <= lift_rounding;
}

/// Whether so many different lifts can hardly all be multiples of a step by chance.
bool enough_differ(const std::vector<Reading>& readings) {
    constexpr std::size_t enough = 8;
    std::vector<double> lifts;
    for (const Reading& r : readings) {
        const auto same = [&r](double lift) { return std::abs(lift - r.lift) <= lift_rounding; };
        if (std::none_of(lifts.begin(), lifts.end(), same)) lifts.push_back(r.lift);
        if (lifts.size() >= enough) return true;
    }
    return false;
}

}  // namespace

double rounding_step(const std::vector<Reading>& readings) {
    if (!enough_differ(readings)) return 0.0;
    const double first = readings.front().lift;
    for (const double step : known_steps()) {
        const auto fits = [&](const Reading& r) { return is_multiple(r.lift - first, step); };
        if (std::all_of(readings.begin(), readings.end(), fits)) return step;
    }
    return 0.0;
}

ReadingLimits reading_limits(const TableProfile& table) {
    const double step = rounding_step(table.readings);
    return {step, std::max(table.smoothing.value_or(step), table_resolution)};
}

}  // namespace lobewright::profile
