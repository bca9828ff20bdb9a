#include "hand/outline/filed_nose.h"

#include "base/elementary/elementary.h"
#include "profile/roots.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright::hand {
namespace {

using Bend = OutlinePiece::Bend;
using Maker = OutlinePiece::Maker;

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Distance of the tangents from the shaft's axis.
double tangent_distance(const FiledNose& nose) {
    return nose.centre * elementary::cos(nose.half_angle.radians()) + nose.radius;
}

/// Direction, past the nose's, of its joint with a flank.
ShaftAngle joint_direction(const FiledNose& nose) {
    return direction_of(Vec2{nose.centre, 0.0} + nose.radius * unit_towards(nose.half_angle));
}

Vec2 point_under_file(const FiledNose& nose, ShaftAngle direction) {
    return radius_under_file(nose, direction) * unit_towards(direction);
}

OutlinePiece arc_piece(const FiledNose& nose, ShaftAngle from, ShaftAngle to) {
    return {Bend::convex,
            Maker::file,
            from,
            to,
            point_under_file(nose, from),
            point_under_file(nose, to),
            nose.centre * unit_towards(nose.facing),
            nose.radius,
            {}};
}

/// The tangent on the counter-clockwise side (side = 1) or the other (-1), between two directions.
OutlinePiece tangent_piece(const FiledNose& nose, int side, ShaftAngle from, ShaftAngle to) {
    return {Bend::straight,
            Maker::file,
            from,
            to,
            point_under_file(nose, from),
            point_under_file(nose, to),
            {},
            0.0,
            unit_towards(nose.facing + side * nose.half_angle)};
}

/// How far past the nose's direction the file stops on one side: where the outline falls below what it
/// allows.
ShaftAngle file_stops(const Outline& outline, const FiledNose& nose, int side) {
    constexpr double stride = 0.01;  // radians; a flank goes below the file once, and stays there
    const auto above_file = [&](double past) {
        const ShaftAngle at = nose.facing + ShaftAngle::from_radians(side * past);
        const double radius = outline_radius(outline, at);
        return radius - std::min(radius_under_file(nose, at), 2.0 * radius);
    };
    double outside = joint_direction(nose).radians();
    while (above_file(outside) > 0.0 && outside < std::numbers::pi)
        outside += stride;
    double inside = std::max(0.0, outside - 2.0 * stride);
    while (inside > 0.0 && above_file(inside) <= 0.0)
        inside = std::max(0.0, inside - stride);
    if (above_file(inside) <= 0.0) return {};
    return ShaftAngle::from_radians(profile::root_of(above_file, inside, outside));
}

/// What stays of a piece between two directions on it.
OutlinePiece trimmed(OutlinePiece piece, ShaftAngle from, ShaftAngle to) {
    if (from > piece.from) piece.start = piece_radius(piece, from) * unit_towards(from), piece.from = from;
    if (to < piece.to) piece.end = piece_radius(piece, to) * unit_towards(to), piece.to = to;
    return piece;
}

/// The outline between two directions, the second within a turn after the first.
Outline part_of(const Outline& outline, ShaftAngle from, ShaftAngle to) {
    Outline part;
    for (const double turns : {-1.0, 0.0, 1.0, 2.0}) {
        for (OutlinePiece piece : outline) {
            piece.from += turns * whole_turn, piece.to += turns * whole_turn;
            if (piece.to > from && piece.from < to) add_piece(part, trimmed(piece, from, to));
        }
    }
    return part;
}

}  // namespace

std::vector<FiledNose> filed_noses(const SolvedLobe& lobe) {
    const ArcGeometry& arcs = *lobe.arcs;
    const double centre = arcs.base_radius + arcs.lift - arcs.nose_radius;
    const double e = arcs.flank_radius - arcs.base_radius, a = arcs.action_angle.radians() / 2.0;
    const double half_angle = elementary::atan2(e * elementary::sin(a),
                                                centre + e * elementary::cos(a));  // flank's centre to nose's
    std::vector<FiledNose> noses;
    for (int k = 0; k < lobe.repeat; ++k)
        noses.push_back({lobe.at + ShaftAngle::from_radians(full_turn * k / lobe.repeat), centre,
                         arcs.nose_radius, ShaftAngle::from_radians(half_angle)});
    return noses;
}

double radius_under_file(const FiledNose& nose, ShaftAngle direction) {
    const double past = std::abs(wrapped(direction - nose.facing).radians());
    if (past <= joint_direction(nose).radians()) {
        const Vec2 centre = nose.centre * unit(past);
        return centre.x + std::sqrt(std::max(0.0, nose.radius * nose.radius - centre.y * centre.y));
    }
    const double steepness = elementary::cos(past - nose.half_angle.radians());
    return steepness > 0.0 ? tangent_distance(nose) / steepness : infinity;
}

double exit_along(const FiledNose& nose, Vec2 point, Vec2 normal) {
    double nearest = infinity;
    for (const int side : {-1, 1})
        nearest = std::min(
            nearest, exit_along(flat_cut(nose.facing + side * nose.half_angle, tangent_distance(nose)), point,
                                normal));
    const Vec2 nose_direction = unit_towards(nose.facing);
    const Vec2 to_centre = nose.centre * nose_direction - point;
    const double across = cross(to_centre, normal);
    if (std::abs(across) > nose.radius) return nearest;
    const double exit = dot(to_centre, normal) + std::sqrt(nose.radius * nose.radius - across * across);
    const Vec2 arm = point + exit * normal - nose.centre * nose_direction;
    const bool on_nose = dot(arm, nose_direction) >= nose.radius * elementary::cos(nose.half_angle.radians());
    return on_nose ? std::min(nearest, exit) : nearest;
}

Outline filed(const Outline& outline, const FiledNose& nose) {
    const ShaftAngle after = file_stops(outline, nose, 1);
    const ShaftAngle before = file_stops(outline, nose, -1);
    if (after + before <= ShaftAngle{}) return outline;
    // The outline's own part runs from where the file stops after the nose, round to where it starts before.
    Outline result = part_of(outline, nose.facing + after, nose.facing - before + whole_turn);
    const ShaftAngle joint = joint_direction(nose), towards = nose.facing + whole_turn;
    const ShaftAngle arc_from = towards - std::min(before, joint), arc_to = towards + std::min(after, joint);
    add_piece(result, tangent_piece(nose, -1, towards - before, arc_from));
    result.push_back(arc_piece(nose, arc_from, arc_to));
    add_piece(result, tangent_piece(nose, 1, arc_to, towards + after));
    return result;
}

}  // namespace lobewright::hand
