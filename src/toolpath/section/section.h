/// The cutter's section in the plane across the shaft: one shape for every cutter, however it is held. This
/// room holds that section and its contact with a lobe: where it touches, whether it gets everywhere, how far
/// out it stands for each direction of the shaft, and from which places along the shaft it covers the lobe's
/// width.
///
/// Frame of the section: u points from the shaft's axis to the cutter, v lies a quarter turn ccw of it, seen
/// from the drive end. The section is a flat of half width w, square to u, with a corner of radius r at each
/// end; its middle lies at v = d. What faces the shaft is the height, over the tip,
///
///     f(x) = 0 for |x| <= w,    r - sqrt(r² - (|x| - w)²) for w <= |x| <= w + r,    x = v - d
///
/// and the section just touches a lobe where the tip's distance from the axis is X = max over its points P of
/// P·u - f(P·v - d).
#pragma once

#include <lobewright/job.h>

#include <limits>

namespace lobewright::toolpath {

struct PlaneSection {
    double half_flat = 0.0;  ///< w, mm
    double corner = 0.0;     ///< r, mm
    double shift = 0.0;      ///< d, mm
    double word_offset =
        0.0;  ///< radial word less X, mm: the radius where the word is that of the cutter's centre
    bool corners_may_ride =
        true;  ///< false: the flat's ends don't cut (the flutes' ends of a cutter lying across)
    /// A hollow end, whose corner leads: beside its axis it stands for a straight line over the tip,
    /// f(x) = rise + slope · x, on which alone it touches (see dished_end.h). slope 0: no such end.
    double slope = 0.0;
    double rise = 0.0;  ///< mm

    [[nodiscard]] bool inclined() const { return slope != 0.0; }
};

/// For half of the flat of a cutter's narrowest slice, mm, where all its slices along the shaft touch alike.
inline constexpr double every_slice_alike = std::numeric_limits<double>::infinity();

/// The section of a cutter on a machine. Parallel: w = 0, r = R, whose tip is the edge; the word is
/// the centre's or the edge's (cutter_zero). Radial: end mill w = R - corner, r = corner; ball nose w = 0, r
/// = R. d = side_shift, towards v. Tangential: w = half of the straight flutes (half the width of a disc), r
/// = 0; their middle faces the shaft's axis. Required: the machine can hold the cutter so (see needs.h).
PlaneSection section_of(const Machine& machine, const Cut& cut, const Cutter& cutter);

}  // namespace lobewright::toolpath
