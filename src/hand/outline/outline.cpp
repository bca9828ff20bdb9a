#include "hand/outline/outline.h"

#include "base/elementary/elementary.h"

#include <algorithm>
#include <cmath>

namespace lobewright::hand {
namespace {

using Shape = HandCut::Shape;
using Bend = OutlinePiece::Bend;
using Maker = OutlinePiece::Maker;

Bend bend_of(Shape shape) {
    if (shape == Shape::swept_arc) return Bend::convex;
    return shape == Shape::flat ? Bend::straight : Bend::hollow;
}

/// Half the angle that a cut takes out of the blank's outside, seen from the axis; 0 where it does not reach
/// it.
ShaftAngle half_angle_on_blank(const HandCut& cut, double blank_radius) {
    const double d = cut.distance;
    const double cosine = cut.shape == Shape::flat
                              ? std::min(1.0, d / blank_radius)
                              : std::clamp((blank_radius * blank_radius + d * d - cut.radius * cut.radius) /
                                               (2.0 * blank_radius * d),
                                           -1.0, 1.0);
    return ShaftAngle::from_radians(elementary::acos(cosine));
}

/// The joint between a cut and the next one round: one crossing, or a part of the blank's outside from
/// `leaves` to `meets`.
struct Joint {
    ShaftAngle leaves, meets;  ///< unwrapped
    Vec2 leaving, meeting;
};

OutlinePiece cut_piece(const HandCut& cut, const Joint& before, ShaftAngle from, const Joint& after) {
    return {bend_of(cut.shape), Maker::cut,     from,
            after.leaves,       before.meeting, after.leaving,
            cut.centre(),       cut.radius,     unit_towards(cut.facing)};
}

OutlinePiece blank_piece(double radius, ShaftAngle from, ShaftAngle to) {
    return {Bend::convex, Maker::blank, from, to, radius * unit_towards(from), radius * unit_towards(to),
            {},           radius,       {}};
}

/// Whether the wall that a round cut leaves within the blank overhangs, where no other cut takes it off.
bool overhangs(const HandCut& cut, double blank_radius) {
    return cut.shape == Shape::round &&
           cut.distance * cut.distance - cut.radius * cut.radius < blank_radius * blank_radius;
}

std::optional<Joint> joint_at_crossing(const HandCut& first, ShaftAngle turn_between, Vec2 crossing) {
    if (first.shape == Shape::round && dot(crossing - first.centre(), crossing) > 0.0) return std::nullopt;
    const ShaftAngle past = wrapped(direction_of(crossing) - first.facing);
    const bool the_long_way = past < ShaftAngle{} && turn_between > half_turn;
    const ShaftAngle at = first.facing + (the_long_way ? past + whole_turn : past);
    return Joint{at, at, crossing, crossing};
}

std::optional<Joint> joint(const HandCut& first, const HandCut& second, ShaftAngle turn_between,
                           double blank_radius) {
    const auto crossing = corner_between(first, second);
    if (crossing && length(*crossing) <= blank_radius)
        return joint_at_crossing(first, turn_between, *crossing);
    if (overhangs(first, blank_radius) || overhangs(second, blank_radius)) return std::nullopt;
    ShaftAngle leaves = first.facing + half_angle_on_blank(first, blank_radius);
    ShaftAngle meets = first.facing + turn_between - half_angle_on_blank(second, blank_radius);
    if (leaves > meets) leaves = meets = (leaves + meets) / 2.0;  // the corner lies on the blank's outside
    return Joint{leaves, meets, blank_radius * unit_towards(leaves), blank_radius * unit_towards(meets)};
}

/// Once round from direction 0, without those that the blank's outside or a deeper one makes idle.
std::vector<HandCut> in_order(const std::vector<HandCut>& cuts, double blank_radius) {
    std::vector<HandCut> ordered;
    for (const HandCut& cut : cuts) {
        if (radius_under(cut, cut.facing) >= blank_radius) continue;
        ordered.push_back(cut);
        ordered.back().facing = in_first_turn(cut.facing);
    }
    std::stable_sort(ordered.begin(), ordered.end(), [](const HandCut& a, const HandCut& b) {
        return a.facing != b.facing ? a.facing < b.facing
                                    : radius_under(a, a.facing) < radius_under(b, b.facing);
    });
    const auto same = [](const HandCut& a, const HandCut& b) { return b.facing - a.facing < same_direction; };
    ordered.erase(std::unique(ordered.begin(), ordered.end(), same), ordered.end());
    if (ordered.size() > 1 && ordered.front().facing + whole_turn - ordered.back().facing < same_direction)
        ordered.pop_back();
    return ordered;
}

/// After each cut; nothing where two of them leave a wall.
std::optional<std::vector<Joint>> joints_of(const std::vector<HandCut>& ordered, double blank_radius) {
    std::vector<Joint> joints;
    for (std::size_t i = 0; i < ordered.size(); ++i) {
        const bool last = i + 1 == ordered.size();
        const HandCut& next = ordered[last ? 0 : i + 1];
        const ShaftAngle between = next.facing - ordered[i].facing + (last ? whole_turn : ShaftAngle{});
        const auto found = joint(ordered[i], next, between, blank_radius);
        if (!found) return std::nullopt;
        joints.push_back(*found);
    }
    return joints;
}

/// Whether the ray from the piece's centre along `arm` leaves through this convex arc (of less than half a
/// turn, or the blank's).
bool faces(const OutlinePiece& piece, Vec2 arm) {
    const ShaftAngle start = direction_of(piece.start - piece.centre);
    const auto past_start = [&](Vec2 towards) {
        const double radians = (direction_of(towards) - start).radians();
        return radians - full_turn * std::floor(radians / full_turn);
    };
    const bool whole = piece.to - piece.from >= whole_turn;
    return past_start(arm) <= (whole ? full_turn : past_start(piece.end - piece.centre));
}

const OutlinePiece& piece_at(const Outline& outline, ShaftAngle direction) {
    const double start = outline.front().from.radians();
    const double past = direction.radians() - start;
    const double turned_by = past - full_turn * std::floor(past / full_turn);
    const auto found = std::find_if(outline.begin(), outline.end(), [&](const OutlinePiece& piece) {
        return start + turned_by <= piece.to.radians();
    });
    return found == outline.end() ? outline.back() : *found;
}

}  // namespace

std::optional<Outline> outline_of(const std::vector<HandCut>& cuts, double blank_radius) {
    const auto ordered = in_order(cuts, blank_radius);
    if (ordered.empty()) return Outline{blank_piece(blank_radius, {}, whole_turn)};
    const auto joints = joints_of(ordered, blank_radius);
    if (!joints) return std::nullopt;
    Outline outline;
    for (std::size_t i = 0; i < ordered.size(); ++i) {
        const Joint& before = i == 0 ? joints->back() : (*joints)[i - 1];
        const Joint& after = (*joints)[i];
        const ShaftAngle from = i == 0 ? before.meets - whole_turn : before.meets;
        add_piece(outline, cut_piece(ordered[i], before, from, after));
        add_piece(outline, blank_piece(blank_radius, after.leaves, after.meets));
    }
    return outline;
}

double outline_radius(const Outline& outline, ShaftAngle direction) {
    return piece_radius(piece_at(outline, direction), direction);
}

double piece_radius(const OutlinePiece& piece, ShaftAngle direction) {
    const Vec2 u = unit_towards(direction);
    if (piece.bend == Bend::straight) return dot(piece.start, piece.normal) / dot(u, piece.normal);
    const double along = dot(piece.centre, u);
    const double across = cross(piece.centre, u);
    const double half = std::sqrt(std::max(0.0, piece.radius * piece.radius - across * across));
    return piece.bend == Bend::convex ? along + half : along - half;
}

void add_piece(Outline& outline, const OutlinePiece& piece) {
    if (piece.to > piece.from) outline.push_back(piece);
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

double first_touch(const Outline& outline, ShaftAngle facing, std::optional<double> cutter_radius) {
    const Vec2 u = unit_towards(facing);
    const double reach = cutter_radius.value_or(0.0);
    double touch = 0.0;
    const auto touch_at = [&](Vec2 point) {
        const double across = cross(point, u);
        if (cutter_radius && std::abs(across) > reach) return;
        touch =
            std::max(touch, dot(point, u) + std::sqrt(cutter_radius ? reach * reach - across * across : 0.0));
    };
    for (const OutlinePiece& piece : outline) {
        touch_at(piece.start);
        if (piece.maker == Maker::blank && faces(piece, u)) touch_at(piece.radius * u);
    }
    return touch;
}

}  // namespace lobewright::hand
