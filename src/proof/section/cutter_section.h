/// The proof's own idea of the cutter: the section that a plane across the shaft cuts from it, and what of it
/// must not touch. Shares nothing with the toolpath's. This room holds the section, and where a ray enters it
/// as it moves.
///
/// Frame of a section: u points from the shaft's axis to the cutter (the shaft direction that faces it), t
/// lies a quarter turn ccw of u. Heights along u are counted from the cutter's *tip*, the point of it nearest
/// the shaft. A section lies between its two walls, at t = shift ± half_width, above its lower boundary.
#pragma once

#include <lobewright/job.h>

#include <optional>
#include <utility>
#include <vector>

namespace lobewright::proof {

struct PlaneSection {
    double raise = 0.0;      ///< mm: height of its lowest point over the tip
    double half_flat = 0.0;  ///< mm: half width of the flat at its lowest point
    double corner = 0.0;     ///< mm: radius of the arcs that go on from the flat's ends; 0: sharp ends
    double shift = 0.0;      ///< mm: its middle, along t
    /// An end mill with rounded corners, seen off its axis by `off`: the corners are then no arcs. `ring` is
    /// the radius of its flat, `corner` that of the rounding in the plane of its axis; 0: a plain section.
    double ring = 0.0;
    double off = 0.0;
    /// A hollow end: inside of the ring's rounding the boundary rises towards the axis along a cone of this
    /// slope, tangent to the rounding. 0: flat there.
    double dish = 0.0;

    /// Its boundary is told by its height over the distance from the cutter's axis.
    [[nodiscard]] bool turned() const { return off > 0.0 || dish > 0.0; }
    /// mm along t from the middle to the walls.
    [[nodiscard]] double half_width() const;
    /// mm from the shaft's axis to the nearest of it, whichever way the shaft is turned, with the cutter's
    /// tip at `tip`; no more than that where the section is turned.
    [[nodiscard]] double distance_from_axis(double tip) const;
    bool operator==(const PlaneSection&) const = default;
};

/// Whether all of `b` lies within `a` while their tips stand at one height: true is certain, false is not.
bool holds(const PlaneSection& a, const PlaneSection& b);

/// One part of the cutter: flutes or wheel, neck, shank, holder. It lies along the shaft from `first` to
/// `last`, counted from the axial word.
struct CutterPart {
    enum class Shape {
        round,    ///< its axis along the shaft: a disc in every plane, smaller towards a rounded end
        upright,  ///< its axis along u: seen from the side
        lying,    ///< its axis along t
    };
    Shape shape = Shape::round;
    const char* name = "";
    double radius = 0.0;
    double corner = 0.0;  ///< rounding of the end: round and upright
    double dish = 0.0;    ///< slope of a hollow end: upright
    double first = 0.0, last = 0.0;
    int rounded_end = 0;       ///< round: -1 at `first`, +1 at `last`
    double height = 0.0;       ///< of its lowest point over the cutter's tip
    double half_length = 0.0;  ///< lying
    double shift = 0.0;

    /// The section in the plane at `off` (the plane's z less the axial word); nothing where the part is not
    /// there.
    [[nodiscard]] std::optional<PlaneSection> section(double off) const;
    /// The section of the planes between two offsets that holds all the others between them.
    [[nodiscard]] std::optional<PlaneSection> widest_section(double off_a, double off_b) const;
    /// That of all its planes.
    [[nodiscard]] PlaneSection widest_section() const { return *widest_section(first, last); }
    /// Whether the section is the same from one offset to the other.
    [[nodiscard]] bool uniform(double off_a, double off_b) const;
    /// Offsets at which the section begins, ends or starts to change, ascending.
    [[nodiscard]] std::vector<double> breaks() const;
    /// From which offset to which the section changes; elsewhere it is the same, or none. Empty where it
    /// never does: the first is then the greater.
    [[nodiscard]] std::pair<double, double> changing() const;
    /// The offset between two at which the part is widest.
    [[nodiscard]] double widest_offset(double off_a, double off_b) const;
};

struct CutterBody {
    CutterPart cutting;
    std::vector<CutterPart> blunt;  ///< neck, shank, holder: they must touch nothing
    double tip_from_word = 0.0;     ///< mm: tip's height less the radial word
    double facing_per_degree =
        0.0;  ///< radians of shaft angle that faces the cutter, per degree of the rotary word
    bool along_shaft = false;  ///< its axis lies parallel to the shaft
};

/// The body of a wheel that has lost `worn` mm of its radius: its edge stands so much higher over the place
/// of the new one's, its neck and all else where they were.
CutterBody worn_body(CutterBody body, double worn);

/// The job's cutter on the job's machine. Required: the needs of Purpose::prove are met.
CutterBody cutter_body(const Job& job);

}  // namespace lobewright::proof
