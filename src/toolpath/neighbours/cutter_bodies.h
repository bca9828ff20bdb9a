/// The cutter as round bodies (its edges, its neck or shank, its holder), and each body's section in a slice
/// across the shaft.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/setup.h"

#include <lobewright/interval.h>

#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// mm: longer than any shaft, wider than any cutter.
inline constexpr double endless = 1e4;
/// mm: what only touches, to arithmetic on lengths up to `endless` and to any gauge, doesn't overlap.
inline constexpr double hairline = 1e-6;

/// A round part of the cutter. Its axis: parallel, along the shaft; radial, along u from `above` the tip;
/// tangential, along v from `beside` the middle.
struct RoundBody {
    BodyPart part = BodyPart::edge;
    double radius = 0.0;   ///< mm
    Interval along;        ///< parallel: of the axial word, mm
    double above = 0.0;    ///< radial, mm
    double beside = 0.0;   ///< tangential, mm
    double rounded = 0.0;  ///< parallel edges, mm: radius of the rounding at the tip, away from the spindle
};

/// The edges first.
std::vector<RoundBody> bodies_of(const Setup& setup);

/// A body's section in the slice of a stretch along the shaft that is nearest to its axis, and how far its
/// tip stands over the cutter's, mm.
struct Slice {
    PlaneSection section;
    double raise = 0.0;
};

/// `place` is the axial word, mm. Nothing where body and stretch lie apart along the shaft.
std::optional<Slice> slice_of(const Setup& setup, const RoundBody& body, double place, Interval stretch);

}  // namespace lobewright::toolpath
