/// The limits of a fullest lift as a job file has them: their keys, and their figures in its units.
#pragma once

#include <lobewright/job.h>
#include <lobewright/lobe.h>

#include <string>

namespace lobewright::profile {

/// "deceleration", ...
std::string limit_key(FullestLimit limit);

/// Whether less of it is laxer.
bool is_least(FullestLimit limit);

/// Where a limit stands; null where it isn't given.
const double* limit_in(const FullestLimits& limits, FullestLimit limit);
void set_limit(FullestLimits& limits, FullestLimit limit, double value);

/// A limit as it can be typed: four figures, rounded to the laxer side.
struct TypedLimit {
    FullestLimit limit = FullestLimit::jerk;
    std::string words;   ///< without a unit
    double value = 0.0;  ///< as FullestLimits has it
};
TypedLimit typed_limit(FullestLimit limit, double value, Units units);

/// Every limit, in the order of FullestLimit.
inline constexpr FullestLimit all_fullest_limits[] = {
    FullestLimit::velocity,   FullestLimit::acceleration,    FullestLimit::deceleration,
    FullestLimit::jerk,       FullestLimit::smallest_radius, FullestLimit::contact_stress,
    FullestLimit::float_speed};

}  // namespace lobewright::profile
