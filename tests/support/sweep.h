/// A third opinion on what a path cuts: brute force, written for the tests alone, sharing no code with the
/// toolpath or the proof.
///
/// One slab is a plane across the shaft at one z. On a ray from the shaft's axis, the cutter at one place
/// leaves the least distance at which the ray enters its body; along a block the place runs straight in the
/// words. The least over the blocks is found by sampling each block (every half degree of rotation, at least
/// four steps) and closing in on every local minimum that could still matter by golden sections, to 1e-8 rad.
/// Error of the radius on a ray: below 0.05 µm (a test holds it against samples a hundred times as dense); of
/// the extremes of a comparison: below 0.05 µm too, as they are closed in on in the same way between the
/// rays. Cutters narrower than 1 mm may fall between samples.
#pragma once

#include <lobewright/job.h>
#include <lobewright/lobe.h>
#include <lobewright/toolpath.h>

#include <cstddef>
#include <vector>

namespace sweep {

/// Where the machine's words stand, in mm of radius, mm, and degrees that run on; reached from the place
/// before it in a straight line of the words.
struct Position {
    double radial = 0.0;
    double axial = 0.0;
    double rotary = 0.0;
    bool rapid = false;
    double seconds = 0.0;
    int line = 0;
};

/// A toolpath's places, its start (as a rapid) first.
std::vector<Position> positions_of(const lobewright::Toolpath& path);

/// The cutter as a solid, and how it stands to the words.
struct Body {
    enum class Shape {
        cylinder,  ///< axis along the shaft: a disc of `radius` in every slab, rounded by `corner` at the end
                   ///< `tip_end`
        end,       ///< axis along the radial word: flat end with a corner, or a ball (corner = radius)
        lying      ///< axis square to both: a cylinder of `radius` across, `half_length` to each side
    };
    Shape shape = Shape::cylinder;
    double radius = 0.0;
    double corner = 0.0;
    double dish = 0.0;  ///< end: radians by which it is hollow, from the rounding on towards the axis
    double half_length = 0.0;
    double from = 0.0, to = 0.0;  ///< cylinder: its extent along the shaft, from the axial word
    int tip_end = 0;              ///< cylinder: +1 the rounded end is at `to`, -1 at `from`, 0 none
    double side = 0.0;            ///< of its axis from the shaft's axis, towards ccw
    double tip_from_word = 0.0;   ///< its nearest point to the shaft less the radial word
    double facing_per_degree =
        0.0;  ///< radians of shaft angle that faces the cutter, per degree of the rotary word
};

/// The job's cutter: the part that cuts. Required: machine, cut and cutter are there.
Body cutting_body(const lobewright::Job& job);
/// Neck, shank and holder beside a parallel cutter: what must never touch. Empty for the other ways of
/// holding.
std::vector<Body> blunt_bodies(const lobewright::Job& job);

/// What feed moves leave in one slab.
class Slab {
  public:
    /// `from`, `to`: the places [from, to) of `positions` are swept (each with the way from the place before
    /// it). `rapids_too`: whether rapids sweep as well.
    Slab(const std::vector<Position>& positions, const Body& body, double z, double blank_radius,
         bool rapids_too = false, std::size_t from = 1, std::size_t to = static_cast<std::size_t>(-1));

    /// Remaining radius on the ray at shaft angle `phi`, radians; at most the blank's.
    [[nodiscard]] double radius_on(double phi) const;

  private:
    struct Block {
        double facing0, facing1;  // radians
        double tip0, tip1;        // mm
        double dz0, dz1;          // slab less axial word
        int samples;
    };
    [[nodiscard]] double entry(const Block& block, double way, double phi) const;
    [[nodiscard]] bool reaches(const Block& block, double phi, double best) const;
    [[nodiscard]] double least_on(const Block& block, double phi, double best) const;

    Body body_;
    double blank_radius_;
    std::vector<Block> blocks_;
};

/// How what is left differs from a lobe's design (with `left_on` along the normal), signed along the outward
/// normal.
struct Comparison {
    double deepest = 0.0;
    double deepest_at = 0.0;  ///< shaft angle, radians
    double proudest = 0.0;
    double proudest_at = 0.0;
};
Comparison compare(const Slab& slab, const lobewright::SolvedLobe& lobe, double left_on = 0.0,
                   int rays = 720);

/// The deviation on one ray.
double deviation_on(const Slab& slab, const lobewright::SolvedLobe& lobe, double phi, double left_on = 0.0);

/// How many rapids go deeper than 0.1 µm into what is left of the blank when their turn comes, looked for in
/// the slabs at `zs`.
int rapids_in_stock(const std::vector<Position>& positions, const Body& body, double blank_radius,
                    const std::vector<double>& zs);

}  // namespace sweep
