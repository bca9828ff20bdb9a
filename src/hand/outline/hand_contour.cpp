#include "hand/outline/hand_contour.h"

#include "base/elementary/elementary.h"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace lobewright::hand {
namespace {

using Shape = HandCut::Shape;
using Bend = OutlinePiece::Bend;

constexpr double infinity = std::numeric_limits<double>::infinity();

/// [0, 2π).
double in_first_turn(double direction) {
    const double rest = direction - full_turn * std::floor(direction / full_turn);
    return rest < full_turn ? rest : 0.0;
}

/// Two cuts nearer to each other than this are one, radians: at a metre's radius, a thousandth of a
/// micrometre.
constexpr double same_direction = 1e-12;

Bend bend_of(Shape shape) {
    if (shape == Shape::swept_arc) return Bend::convex;
    return shape == Shape::flat ? Bend::straight : Bend::hollow;
}

/// Radius in a direction that one cut allows; infinite where it does not reach.
double radius_under(const HandCut& cut, double direction) {
    return exit_along(cut, {}, unit(direction));
}

/// Half the angle that a cut takes out of the blank's outside, seen from the axis; 0 where it does not reach
/// it.
double half_angle_on_blank(const HandCut& cut, double blank_radius) {
    if (cut.shape == Shape::flat) return elementary::acos(std::min(1.0, cut.distance / blank_radius));
    const double d = cut.distance;
    const double cosine =
        (blank_radius * blank_radius + d * d - cut.radius * cut.radius) / (2.0 * blank_radius * d);
    return elementary::acos(std::clamp(cosine, -1.0, 1.0));
}

OutlinePiece piece_of(const HandCut& cut, int index, Vec2 start, Vec2 end, double from, double to) {
    return {bend_of(cut.shape), index, from, to, start, end, cut.centre(), cut.radius, unit(cut.facing)};
}

OutlinePiece blank_piece(double radius, double from, double to) {
    return {
        Bend::convex, OutlinePiece::blank, from, to, radius * unit(from), radius * unit(to), {}, radius, {}};
}

/// The joint between a cut and the next one round: one crossing, or a stretch of the blank from `leaves` to
/// `meets`.
struct Joint {
    double leaves = 0.0;  ///< directions, unwrapped
    double meets = 0.0;
    Vec2 leaving;
    Vec2 meeting;
};

std::optional<Joint> joint(const HandCut& first, const HandCut& second, double turn_between,
                           double blank_radius) {
    const auto point = corner_between(first, second);
    if (point && length(*point) <= blank_radius) {
        const double past = wrapped_radians(direction(*point) - first.facing);
        const double at =
            first.facing + (past < 0.0 && turn_between > std::numbers::pi ? past + full_turn : past);
        if (first.shape == Shape::round && dot(*point - first.centre(), *point) > 0.0) return std::nullopt;
        return Joint{at, at, *point, *point};
    }
    double leaves = first.facing + half_angle_on_blank(first, blank_radius);
    double meets = first.facing + turn_between - half_angle_on_blank(second, blank_radius);
    for (const HandCut& cut : {first, second})
        if (cut.shape == Shape::round &&
            cut.distance * cut.distance - cut.radius * cut.radius < blank_radius * blank_radius)
            return std::nullopt;
    if (leaves > meets) leaves = meets = (leaves + meets) / 2.0;  // the corner lies on the blank's outside
    return Joint{leaves, meets, blank_radius * unit(leaves), blank_radius * unit(meets)};
}

struct OrderedCut {
    HandCut cut;
    int index;
};

std::vector<OrderedCut> in_order(const std::vector<HandCut>& cuts, double blank_radius) {
    std::vector<OrderedCut> ordered;
    for (std::size_t i = 0; i < cuts.size(); ++i) {
        if (radius_under(cuts[i], cuts[i].facing) >= blank_radius) continue;
        ordered.push_back({cuts[i], static_cast<int>(i)});
        ordered.back().cut.facing = in_first_turn(cuts[i].facing);
    }
    std::stable_sort(ordered.begin(), ordered.end(), [](const OrderedCut& a, const OrderedCut& b) {
        return a.cut.facing != b.cut.facing
                   ? a.cut.facing < b.cut.facing
                   : radius_under(a.cut, a.cut.facing) < radius_under(b.cut, b.cut.facing);
    });
    const auto same = [](const OrderedCut& a, const OrderedCut& b) {
        return b.cut.facing - a.cut.facing < same_direction;
    };
    ordered.erase(std::unique(ordered.begin(), ordered.end(), same), ordered.end());
    if (ordered.size() > 1 &&
        ordered.front().cut.facing + full_turn - ordered.back().cut.facing < same_direction)
        ordered.pop_back();
    return ordered;
}

/// Whether the ray from `centre` along `arm` leaves through this convex arc (of less than half a turn, or the
/// blank's).
bool faces(const OutlinePiece& piece, Vec2 arm) {
    const double turned_by = direction(arm) - direction(piece.start - piece.centre);
    const double span = direction(piece.end - piece.centre) - direction(piece.start - piece.centre);
    const auto positive = [](double angle) { return angle - full_turn * std::floor(angle / full_turn); };
    const double whole_span = piece.to - piece.from >= full_turn ? full_turn : positive(span);
    return positive(turned_by) <= whole_span;
}

double root(const auto& function, double low, double high) {
    const double at_low = function(low);
    const double at_high = function(high);
    if (at_low == 0.0) return low;
    if (at_high == 0.0) return high;
    boost::uintmax_t iterations = 100;
    const auto bracket = boost::math::tools::toms748_solve(
        function, low, high, at_low, at_high, boost::math::tools::eps_tolerance<double>(), iterations);
    return (bracket.first + bracket.second) / 2.0;
}

const OutlinePiece& piece_at(const Outline& outline, double direction) {
    const double start = outline.front().from;
    const double turned_by = direction - start - full_turn * std::floor((direction - start) / full_turn);
    const auto found = std::find_if(outline.begin(), outline.end(),
                                    [&](const OutlinePiece& piece) { return start + turned_by <= piece.to; });
    return found == outline.end() ? outline.back() : *found;
}

double radius_of(const OutlinePiece& piece, double direction) {
    const Vec2 u = unit(direction);
    if (piece.bend == Bend::straight) return dot(piece.start, piece.normal) / dot(u, piece.normal);
    const double along = dot(piece.centre, u);
    const double across = cross(piece.centre, u);
    const double half = std::sqrt(std::max(0.0, piece.radius * piece.radius - across * across));
    return piece.bend == Bend::convex ? along + half : along - half;
}

void push_if_any(Outline& outline, const OutlinePiece& piece) {
    if (piece.to > piece.from) outline.push_back(piece);
}

/// What stays of a piece between two directions on it.
OutlinePiece trimmed(OutlinePiece piece, double from, double to) {
    if (from > piece.from) piece.start = radius_of(piece, from) * unit(from), piece.from = from;
    if (to < piece.to) piece.end = radius_of(piece, to) * unit(to), piece.to = to;
    return piece;
}

/// Direction, past the nose's, of its joint with a flank.
double joint_direction(const FiledNose& nose) {
    return direction(Vec2{nose.centre, 0.0} + nose.radius * unit(nose.half_angle));
}

/// The tangent on the counter-clockwise side (side = 1) or the other (-1), between two directions.
OutlinePiece tangent_piece(const FiledNose& nose, int side, double from, double to) {
    const Vec2 start = radius_under_file(nose, from) * unit(from);
    const Vec2 end = radius_under_file(nose, to) * unit(to);
    return {Bend::straight,
            OutlinePiece::filed,
            from,
            to,
            start,
            end,
            {},
            0.0,
            unit(nose.facing + side * nose.half_angle)};
}

/// How far past the nose's direction the file stops on one side: where the outline falls below what it
/// allows.
double file_stops(const Outline& outline, const FiledNose& nose, int side) {
    const auto above_file = [&](double past) {
        const double at = nose.facing + side * past;
        return outline_radius(outline, at) -
               std::min(radius_under_file(nose, at), 2.0 * outline_radius(outline, at));
    };
    double outside = joint_direction(nose);
    while (above_file(outside) > 0.0 && outside < std::numbers::pi)
        outside += 0.01;
    double inside = std::max(0.0, outside - 0.02);
    while (inside > 0.0 && above_file(inside) <= 0.0)
        inside = std::max(0.0, inside - 0.01);
    if (above_file(inside) <= 0.0) return 0.0;
    return root(above_file, inside, outside);
}

}  // namespace

HandCut swept_cut(ShaftAngle facing, double offset, double swept_radius) {
    return {Shape::swept_arc, facing.radians(), -offset, swept_radius};
}
HandCut flat_cut(ShaftAngle facing, double distance) {
    return {Shape::flat, facing.radians(), distance, 0.0};
}
HandCut round_cut(ShaftAngle facing, double centre_distance, double cutter_radius) {
    return {Shape::round, facing.radians(), centre_distance, cutter_radius};
}

std::optional<Vec2> corner_between(const HandCut& first, const HandCut& second) {
    if (first.shape == Shape::flat) {
        const Vec2 u = unit(first.facing);
        const auto [sine, cosine] = elementary::sine_and_cosine(second.facing - first.facing);
        if (sine <= 0.0) return std::nullopt;
        const double along = (second.distance - first.distance * cosine) / sine;
        return first.distance * u + along * quarter_turn(u);
    }
    const Vec2 between = second.centre() - first.centre();
    const double half = length(between) / 2.0;
    if (half > first.radius || half == 0.0) return std::nullopt;
    const Vec2 across = quarter_turn(between) / (2.0 * half);
    const double reach = std::sqrt(first.radius * first.radius - half * half);
    return (first.centre() + second.centre()) / 2.0 + reach * across;
}

double exit_along(const HandCut& cut, Vec2 point, Vec2 normal) {
    if (cut.shape == Shape::flat) {
        const Vec2 u = unit(cut.facing);
        const double steepness = dot(normal, u);
        return steepness > 0.0 ? (cut.distance - dot(point, u)) / steepness : infinity;
    }
    const Vec2 to_centre = cut.centre() - point;
    const double along = dot(to_centre, normal);
    const double across = cross(to_centre, normal);
    const double half_squared = cut.radius * cut.radius - across * across;
    if (cut.shape == Shape::swept_arc) return along + std::sqrt(std::max(0.0, half_squared));
    if (half_squared < 0.0 || along < 0.0) return infinity;
    return along - std::sqrt(half_squared);
}

std::optional<Outline> outline_of(const std::vector<HandCut>& cuts, double blank_radius) {
    const auto ordered = in_order(cuts, blank_radius);
    if (ordered.empty()) return Outline{blank_piece(blank_radius, 0.0, full_turn)};
    const std::size_t count = ordered.size();
    std::vector<Joint> joints;  // after each cut
    for (std::size_t i = 0; i < count; ++i) {
        const HandCut& next = ordered[(i + 1) % count].cut;
        const double turn_between = next.facing - ordered[i].cut.facing + (i + 1 == count ? full_turn : 0.0);
        const auto found = joint(ordered[i].cut, next, turn_between, blank_radius);
        if (!found) return std::nullopt;
        joints.push_back(*found);
    }
    Outline outline;
    for (std::size_t i = 0; i < count; ++i) {
        const Joint& before = joints[(i + count - 1) % count];
        const double from = i == 0 ? before.meets - full_turn : before.meets;
        push_if_any(outline, piece_of(ordered[i].cut, ordered[i].index, before.meeting, joints[i].leaving,
                                      from, joints[i].leaves));
        push_if_any(outline, blank_piece(blank_radius, joints[i].leaves, joints[i].meets));
    }
    return outline;
}

double radius_under_file(const FiledNose& nose, double direction_asked) {
    const double past = std::abs(wrapped_radians(direction_asked - nose.facing));
    if (past <= joint_direction(nose)) {
        const Vec2 centre = nose.centre * unit(past);
        return centre.x + std::sqrt(std::max(0.0, nose.radius * nose.radius - centre.y * centre.y));
    }
    const double steepness = elementary::cos(past - nose.half_angle);
    return steepness > 0.0 ? (nose.centre * elementary::cos(nose.half_angle) + nose.radius) / steepness
                           : infinity;
}

double exit_along(const FiledNose& nose, Vec2 point, Vec2 normal) {
    double nearest = infinity;
    for (const int side : {-1, 1}) {
        const auto distance = nose.centre * elementary::cos(nose.half_angle) + nose.radius;
        const auto tangent =
            flat_cut(ShaftAngle::from_radians(nose.facing + side * nose.half_angle), distance);
        nearest = std::min(nearest, exit_along(tangent, point, normal));
    }
    const Vec2 nose_direction = unit(nose.facing);
    const Vec2 to_centre = nose.centre * nose_direction - point;
    const double across = cross(to_centre, normal);
    if (std::abs(across) > nose.radius) return nearest;
    const double exit = dot(to_centre, normal) + std::sqrt(nose.radius * nose.radius - across * across);
    const Vec2 arm = point + exit * normal - nose.centre * nose_direction;
    const bool on_nose = dot(arm, nose_direction) >= nose.radius * elementary::cos(nose.half_angle);
    return on_nose ? std::min(nearest, exit) : nearest;
}

Outline filed(const Outline& outline, const FiledNose& nose) {
    const double after = file_stops(outline, nose, 1);
    const double before = file_stops(outline, nose, -1);
    if (after + before <= 0.0) return outline;
    // The outline's own stretch runs from where the file stops after the nose, round to where it starts
    // before it.
    const double from = nose.facing + after;
    const double to = nose.facing - before + full_turn;
    Outline result;
    for (const double turns : {-1.0, 0.0, 1.0, 2.0}) {
        for (OutlinePiece piece : outline) {
            piece.from += turns * full_turn, piece.to += turns * full_turn;
            if (piece.to > from && piece.from < to) push_if_any(result, trimmed(piece, from, to));
        }
    }
    const double joint = joint_direction(nose);
    const double nose_at = nose.facing + full_turn;
    const double arc_from = nose_at - std::min(before, joint);
    const double arc_to = nose_at + std::min(after, joint);
    push_if_any(result, tangent_piece(nose, -1, nose_at - before, arc_from));
    result.push_back({Bend::convex,
                      OutlinePiece::filed,
                      arc_from,
                      arc_to,
                      radius_under_file(nose, arc_from) * unit(arc_from),
                      radius_under_file(nose, arc_to) * unit(arc_to),
                      nose.centre * unit(nose.facing),
                      nose.radius,
                      {}});
    push_if_any(result, tangent_piece(nose, 1, arc_to, nose_at + after));
    return result;
}

double outline_radius(const Outline& outline, double direction) {
    return radius_of(piece_at(outline, direction), direction);
}

void CutsSoFar::add(const HandCut& cut) {
    cuts_.insert_or_assign(in_first_turn(cut.facing), cut);
}

std::vector<HandCut> CutsSoFar::beside(double facing) const {
    if (cuts_.empty()) return {};
    const auto after = cuts_.lower_bound(in_first_turn(facing));
    const auto& next = after == cuts_.end() ? *cuts_.begin() : *after;
    const auto& before = after == cuts_.begin() ? *cuts_.rbegin() : *std::prev(after);
    if (&next == &before) return {next.second};
    return {before.second, next.second};
}

double farthest_from(const Outline& outline, Vec2 centre) {
    double farthest = 0.0;
    for (const OutlinePiece& piece : outline) {
        farthest = std::max(farthest, length(piece.start - centre));
        const Vec2 beyond = piece.centre - centre;
        const bool bulges = piece.bend == Bend::convex && faces(piece, beyond);
        if (bulges) farthest = std::max(farthest, length(beyond) + piece.radius);
    }
    return farthest;
}

double first_touch(const Outline& outline, double facing, std::optional<double> cutter_radius) {
    const Vec2 u = unit(facing);
    double touch = 0.0;
    const auto touch_at = [&](Vec2 point) {
        const double across = cross(point, u);
        const double reach = cutter_radius.value_or(0.0);
        if (cutter_radius && std::abs(across) > reach) return;
        touch =
            std::max(touch, dot(point, u) + std::sqrt(cutter_radius ? reach * reach - across * across : 0.0));
    };
    for (const OutlinePiece& piece : outline) {
        touch_at(piece.start);
        if (piece.cut == OutlinePiece::blank && faces(piece, u)) touch_at(piece.radius * u);
    }
    return touch;
}

}  // namespace lobewright::hand
