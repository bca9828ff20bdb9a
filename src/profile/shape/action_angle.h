/// An arcs profile as a follower rides it, and the action angle that its timing card asks for.
#pragma once

#include "profile/shape/arcs.h"
#include "profile/shape/cannot_be.h"
#include "profile/shape/cure.h"
#include "profile/shape/lobe_shape.h"

#include <optional>
#include <variant>
#include <vector>

namespace lobewright::profile {

/// By how much the base circle is cut deeper than the circle that the flanks spring from, mm.
double deeper_by(const ArcsProfile& profile);

/// The arcs of the profile's radii on another base circle, with another lift; `action` is the angle between
/// both tangent points, which two radii settle by themselves. It need not exist.
ArcLobe arcs_of(const ArcsProfile& profile, const ShapeChoice& choice, double action);

/// Whether flank and nose are both given, so that the action angle is solved from them.
bool settles_action(const ArcsProfile& profile);

/// The event of a lobe that exists and that the follower can ride, without its ramps.
std::optional<std::vector<MotionPiece>> event_of(const ArcLobe& lobe, const Follower& follower, Sense turns,
                                                 double deeper);

/// The whole action angle, radians: as given, as both radii settle it, or the one that keeps the valve open
/// as long as [engine] asks.
std::variant<double, CannotBe> action_angle_of(const ShapeRequest& request, const ArcsProfile& profile,
                                               const ShapeChoice& choice);

}  // namespace lobewright::profile
