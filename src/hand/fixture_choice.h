/// The offset of a swinging fixture: which lobes it can make, which one to choose, and whether the lathe has
/// room for it.
#pragma once

#include <lobewright/diagnostic.h>
#include <lobewright/hand.h>

#include <string>
#include <vector>

namespace lobewright {

/// The part of an arcs lobe that does not depend on the fixture.
struct LobeShape {
    double base_radius = 0.0;
    double lift = 0.0;
    double half_action = 0.0;  ///< radians
};
LobeShape shape_of(const SolvedLobe& lobe);

/// Nose radius that a fixture of this offset leaves to file, flank radius = offset + base radius, mm;
/// negative or without meaning below least_offset. From (F - n)² = e² + d² + 2 e d cos a, d = base_radius +
/// lift - n, e the offset.
double nose_for_offset(const LobeShape& shape, double offset);
/// The offset for a nose radius. Required: 0 <= nose < limiting_nose.
double offset_for_nose(const LobeShape& shape, double nose);
/// The offset below which no nose is left: its radius has come to nothing.
double least_offset(const LobeShape& shape);
/// The nose radius of straight flanks, which an endless offset would leave.
double limiting_nose(const LobeShape& shape);

/// How far a flank radius and offset + base radius may differ before a lobe is refused, mm: finer than a
/// fixture is set.
inline constexpr double fixture_tolerance = 0.001;

/// The offset to work with: the method's own, or the one that all lobes as written ask for (then told as a
/// note). Complains about every lobe that this fixture can't make, with what would work; without any offset,
/// tells the range and a suggestion: the least whole millimetre (1/32 in) at which each nose has two thirds
/// of its limiting radius.
Outcome<double> fixture_offset(const Job& job, const std::vector<SolvedLobe>& lobes,
                               const std::string& method, Diagnostics& findings);

/// What swings against the room over the bed and over the cross slide (both given as diameters), with
/// remedies.
void check_swing(const Job& job, const std::string& method, double offset, Diagnostics& findings,
                 Diagnostics& complaints);

}  // namespace lobewright
