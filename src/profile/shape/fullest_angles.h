/// The angles of a fullest lift that keep the valve open as long as the timing card asks.
#pragma once

#include "profile/fullest/fullest_lift.h"
#include "profile/shape/cannot_be.h"
#include "profile/shape/lobe_shape.h"

#include <variant>

namespace lobewright::profile {

/// A profile with both its angles, and the lift that it has then.
struct FullestWithAngles {
    FullestProfile profile;
    FullestTask task;
    LimitedLift lift;
};

/// Angles as the profile gives them, or solved from the card of the entry's valve: first on even knots, then
/// on those that the lift asks for there, to `card_precision` of the sum of both angles. The longer the
/// angles, the longer the valve is open.
std::variant<FullestWithAngles, CannotBe> with_fullest_angles(const ShapeRequest& request,
                                                              const FullestProfile& profile);
inline constexpr double card_precision = 1e-9;

}  // namespace lobewright::profile
