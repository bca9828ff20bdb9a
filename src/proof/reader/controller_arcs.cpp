// Arcs, by their centre or by their radius.
#include "base/elementary/elementary.h"
#include "proof/reader/axis_plane.h"
#include "proof/reader/controller.h"

#include <lobewright/angle.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// The two radii of an arc given by its centre may differ by this, mm: half a step of three decimals, both
/// ways.
constexpr double arc_radius_slack = 0.002;
/// mm: an arc larger than this is a slip, or a straight line.
constexpr double largest_arc = 1e4;
/// Radians: an arc that turns less may be taken for a whole circle. Controllers' own limits for that are 1e-6
/// and less (from memory).
constexpr double least_arc_turn = 2e-6;

}  // namespace

bool Controller::arc_plane(const Block& block, const ModalState& next) {
    const PlaneOf plane = plane_of(dialect_.axial.letter, dialect_.radial.letter);
    if (plane.plane != Act::unknown && plane.plane == next.plane) return true;
    return fail("arc-plane", "an arc can be simulated only in the plane of the radial and the axial axis",
                dialect_.plane_word.empty() ? "write it in straight blocks"
                                            : "select " + dialect_.plane_word + " first",
                first_axis_offset(block));
}

/// Fills in centre and way, and gives the arc's length.
bool Controller::arc(const Block& block, ReadMove& made, double& length, const ModalState& next) {
    if (!arc_plane(block, next)) return false;
    if (!block.has(dialect_.radial.letter) && !block.has(dialect_.axial.letter)) {
        return fail("arc-without-end", "an arc needs its end", "write the place where it ends",
                    first_axis_offset(block));
    }
    made.kind = ReadMoveKind::arc;
    const bool in_order = plane_of(dialect_.axial.letter, dialect_.radial.letter).in_order;
    made.arc_sense = (next.motion == Act::arc_ccw) == in_order ? 1 : -1;
    if (block.has('R') ? !radius_arc_centre(block, made, next) : !arc_centre(block, made, next)) return false;
    const double r0 = state_.radial - made.centre_radial, a0 = state_.axial - made.centre_axial;
    const double r1 = next.radial - made.centre_radial, a1 = next.axial - made.centre_axial;
    const double radius = std::sqrt(r0 * r0 + a0 * a0);
    if (radius > largest_arc) {
        return fail("arc-radius", "the arc's radius is larger than any machine",
                    "write it as a straight line", first_axis_offset(block));
    }
    double turn = made.arc_sense * elementary::atan2(a0 * r1 - r0 * a1, a0 * a1 + r0 * r1);
    const bool closed = next.radial == state_.radial && next.axial == state_.axial;
    if (!closed && std::abs(turn) < least_arc_turn) {
        return fail("arc-turn", "the arc ends next to its start, where a controller may go all the way round",
                    "write a straight line, or for a whole circle the start itself as its end",
                    first_axis_offset(block));
    }
    if (turn < 0.0 || closed) turn += full_turn;
    length = radius * turn;
    return true;
}

bool Controller::arc_centre(const Block& block, ReadMove& made, const ModalState& next) {
    const char radial = centre_letter(dialect_.radial.letter), axial = centre_letter(dialect_.axial.letter);
    if (!block.has(radial) && !block.has(axial)) {
        return fail("arc-without-centre", "an arc needs its centre or its radius", "write I, J, K or R",
                    first_axis_offset(block));
    }
    const double unit = *next.mm_per_unit;  // known: an axis word of a length stands in the block
    made.centre_radial = state_.radial + (block.has(radial) ? block.value(radial) * unit : 0.0);
    made.centre_axial = state_.axial + (block.has(axial) ? block.value(axial) * unit : 0.0);
    const auto radius = [&](double r, double a) {
        return std::sqrt((r - made.centre_radial) * (r - made.centre_radial) +
                         (a - made.centre_axial) * (a - made.centre_axial));
    };
    const double start = radius(state_.radial, state_.axial), end = radius(next.radial, next.axial);
    const std::size_t place = block.has(radial) ? block.offset(radial) : block.offset(axial);
    if (start < arc_radius_slack)
        return fail("arc-radius", "the arc's radius is zero", "check its centre", place);
    if (std::abs(start - end) <= arc_radius_slack) return true;
    return fail("arc-radius",
                "the arc's end lies " + shortest_fixed(std::abs(end - start) / unit, 6) +
                    " off the circle of its start",
                "check the centre and the end", place);
}

/// The centre at distance |R| from both ends: of the arc below half a turn for R > 0, above for R < 0.
bool Controller::radius_arc_centre(const Block& block, ReadMove& made, const ModalState& next) {
    const std::size_t place = block.offset('R');
    if (block.has('I') || block.has('J') || block.has('K')) {
        return fail("arc-centre-twice", "the arc has a centre and a radius", "leave one of them out", place);
    }
    const double radius = block.value('R') * *next.mm_per_unit;
    const double da = next.axial - state_.axial, dr = next.radial - state_.radial;
    const double half = 0.5 * std::sqrt(da * da + dr * dr);
    if (half == 0.0) {
        return fail("arc-radius", "an arc by its radius must end elsewhere than it starts",
                    "write its centre", place);
    }
    if (half > std::abs(radius) + arc_radius_slack) {
        return fail("arc-radius", "the radius is too small to reach the arc's end", "check R and the end",
                    place);
    }
    const double height = std::sqrt(std::max(0.0, radius * radius - half * half));
    const double side = (radius > 0.0 ? height : -height) * made.arc_sense / (2.0 * half);
    made.centre_axial = state_.axial + 0.5 * da - side * dr;
    made.centre_radial = state_.radial + 0.5 * dr + side * da;
    return true;
}

}  // namespace lobewright::proof
