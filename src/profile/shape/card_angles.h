/// The angles of a law that keep the valve open as long as the timing card asks.
#pragma once

#include "profile/shape/cannot_be.h"
#include "profile/shape/lobe_shape.h"

#include <variant>

namespace lobewright::profile {

/// The profile with both angles: as it gives them, or solved from the card of the entry's valve. The longer
/// the law, the longer the valve is open, so that there is one solution or none; found to the last bits
/// (toms748).
std::variant<MotionProfile, CannotBe> with_law_angles(const ShapeRequest& request,
                                                      const MotionProfile& profile);

}  // namespace lobewright::profile
