#include "profile/fullest/limit_words.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"

#include <lobewright/number_text.h>
#include <lobewright/units.h>

#include <algorithm>
#include <numbers>

namespace lobewright::profile {
namespace {

/// What one of the file's units is inside.
double unit_of(FullestLimit limit, Units units) {
    constexpr double degrees = 180.0 / std::numbers::pi;
    switch (limit) {
        case FullestLimit::velocity:
            return mm_per(units) * degrees;
        case FullestLimit::acceleration:
        case FullestLimit::deceleration:
            return mm_per(units) * degrees * degrees;
        case FullestLimit::jerk:
            return mm_per(units) * degrees * degrees * degrees;
        case FullestLimit::smallest_radius:
            return mm_per(units);
        case FullestLimit::contact_stress:
        case FullestLimit::float_speed:
            break;
    }
    return 1.0;
}

/// Null where it isn't given. Limits: FullestLimits, const or not.
template <class Limits>
auto place_in(Limits& limits, FullestLimit limit) {
    const auto given = [](auto& value) { return value ? &*value : nullptr; };
    switch (limit) {
        case FullestLimit::velocity:
            return given(limits.velocity);
        case FullestLimit::acceleration:
            return given(limits.acceleration);
        case FullestLimit::deceleration:
            break;
        case FullestLimit::jerk:
            return &limits.jerk;
        case FullestLimit::smallest_radius:
            return given(limits.smallest_radius);
        case FullestLimit::contact_stress:
            return given(limits.contact_stress);
        case FullestLimit::float_speed:
            return given(limits.float_speed);
    }
    return &limits.deceleration;
}

}  // namespace

std::string limit_key(FullestLimit limit) {
    switch (limit) {
        case FullestLimit::velocity:
            return "velocity";
        case FullestLimit::acceleration:
            return "acceleration";
        case FullestLimit::deceleration:
            return "deceleration";
        case FullestLimit::jerk:
            return "jerk";
        case FullestLimit::smallest_radius:
            return "smallest_radius";
        case FullestLimit::contact_stress:
            return "contact_stress";
        case FullestLimit::float_speed:
            return "float_speed";
    }
    return {};
}

bool is_least(FullestLimit limit) {
    return limit == FullestLimit::smallest_radius || limit == FullestLimit::float_speed;
}

const double* limit_in(const FullestLimits& limits, FullestLimit limit) {
    return place_in(limits, limit);
}

void set_limit(FullestLimits& limits, FullestLimit limit, double value) {
    if (double* place = place_in(limits, limit)) *place = value;
}

TypedLimit typed_limit(FullestLimit limit, double value, Units units) {
    const double figure = value / unit_of(limit, units);
    const int decimals = 3 - elementary::decimal_exponent(figure);
    const double steps = figure * elementary::power(10.0, decimals);
    const auto whole = static_cast<double>(is_least(limit) ? step_below(steps) : step_above(steps));
    const double rounded = whole / elementary::power(10.0, decimals);
    return {limit, shortest_fixed(rounded, std::max(decimals, 0)), rounded * unit_of(limit, units)};
}

}  // namespace lobewright::profile
