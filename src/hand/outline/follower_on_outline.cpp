#include "hand/outline/follower_on_outline.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace lobewright::hand {
namespace {

using Bend = OutlinePiece::Bend;

constexpr double never = -std::numeric_limits<double>::infinity();

/// A touch this far past a piece's end is one on the corner there as well, of the piece's own size: well over
/// the rounding of its ends, and nothing in a lift.
constexpr double corner_slack = 1e-12;

/// Whether direction `arm` from the piece's centre points at the piece.
bool points_at(const OutlinePiece& piece, Vec2 arm) {
    const Vec2 to_start = piece.start - piece.centre;
    const Vec2 to_end = piece.end - piece.centre;
    const double slack = corner_slack * piece.radius * length(arm);
    const bool past_start =
        piece.bend == Bend::convex ? cross(to_start, arm) >= -slack : cross(to_start, arm) <= slack;
    const bool before_end =
        piece.bend == Bend::convex ? cross(arm, to_end) >= -slack : cross(arm, to_end) <= slack;
    return past_start && before_end && dot(arm, to_start + to_end) > 0.0;
}

/// Whether a foot on the piece's line lies on the piece.
bool foot_lies_on(const OutlinePiece& piece, Vec2 foot) {
    const Vec2 along = piece.end - piece.start;
    const double slack = corner_slack * length(foot) * length(along);
    return dot(foot - piece.start, along) >= -slack && dot(piece.end - foot, along) >= -slack;
}

/// Where a follower's centre may stand that touches something: nowhere, at one place or at two.
struct CentrePlace {
    Vec2 centre;
    double lift = never;
};
using CentrePlaces = std::array<CentrePlace, 2>;

/// Guides the follower's centre along a straight line.
class Translating {
  public:
    Translating(const Follower& follower, double base_radius, Vec2 facing)
        : along_(facing),
          start_(follower.offset * quarter_turn(facing)),
          seat_(std::sqrt((base_radius + follower.radius) * (base_radius + follower.radius) -
                          follower.offset * follower.offset)) {}

    [[nodiscard]] CentrePlaces circle(Vec2 centre, double radius) const {
        const double across = cross(along_, centre - start_);
        const double half_squared = radius * radius - across * across;
        if (half_squared < 0.0) return {};
        const double middle = dot(centre - start_, along_);
        const double half = std::sqrt(half_squared);
        return {at(middle + half), at(middle - half)};
    }
    [[nodiscard]] CentrePlaces line(Vec2 normal, double distance) const {
        const double steepness = dot(normal, along_);
        if (steepness <= 0.0) return {};
        return {at((distance - dot(start_, normal)) / steepness), CentrePlace{}};
    }

  private:
    [[nodiscard]] CentrePlace at(double travel) const { return {start_ + travel * along_, travel - seat_}; }
    Vec2 along_, start_;
    double seat_;
};

/// Guides the follower's centre along an arc about its arm's pivot.
class Pivoted {
  public:
    Pivoted(const Follower& follower, double base_radius, Vec2 facing) : arm_(follower.arm_length) {
        const double seat = base_radius + follower.radius;
        const double c = follower.pivot_radius;
        // The centre at zero lift lies on the ccw side of the line to the pivot where `side` is ccw.
        const double cosine = std::clamp((c * c + seat * seat - arm_ * arm_) / (2.0 * c * seat), -1.0, 1.0);
        const double sine = -sign_of(follower.side) * std::sqrt(1.0 - cosine * cosine);
        pivot_ = c * turned(facing, {cosine, sine});
        seat_arm_ = seat * facing - pivot_;
        outward_ = dot(quarter_turn(seat_arm_), facing) < 0.0 ? -1.0 : 1.0;
    }

    [[nodiscard]] CentrePlaces circle(Vec2 centre, double radius) const {
        const Vec2 between = centre - pivot_;
        const double d = length(between);
        const double along = (arm_ * arm_ - radius * radius + d * d) / (2.0 * d);
        const double half_squared = arm_ * arm_ - along * along;
        if (half_squared < 0.0) return {};
        return both(between / d, along, std::sqrt(half_squared));
    }
    [[nodiscard]] CentrePlaces line(Vec2 normal, double distance) const {
        const double along = distance - dot(pivot_, normal);
        const double half_squared = arm_ * arm_ - along * along;
        if (half_squared < 0.0) return {};
        return both(normal, along, std::sqrt(half_squared));
    }

  private:
    [[nodiscard]] CentrePlaces both(Vec2 axis, double along, double half) const {
        return {at(along * axis + half * quarter_turn(axis)), at(along * axis - half * quarter_turn(axis))};
    }
    [[nodiscard]] CentrePlace at(Vec2 arm) const {
        const double turned_by = angle_between(seat_arm_, arm);
        return {pivot_ + arm, outward_ * turned_by * arm_};
    }
    double arm_;
    Vec2 pivot_, seat_arm_;
    double outward_ = 1.0;
};

/// A face square to its way, or tilted by so much: it stands on what reaches furthest along its normal.
double flat_lift(const Outline& outline, double base_radius, Vec2 facing, double tilt) {
    const Vec2 normal = tilt == 0.0 ? facing : turned(facing, unit(tilt));
    double height = never;
    for (const OutlinePiece& piece : outline) {
        height = std::max(height, dot(piece.start, normal));
        if (piece.bend == Bend::convex && points_at(piece, normal))
            height = std::max(height, dot(piece.centre, normal) + piece.radius);
    }
    return (height - base_radius) / dot(normal, facing);
}

/// A flat face on an arm: how far what it meets first turns the arm.
class FaceOnArm {
  public:
    FaceOnArm(const Follower& follower, double base_radius, Vec2 facing)
        : facing_(facing),
          arm_(follower.arm_length),
          side_(sign_of(follower.side)),
          depth_(*follower.pad_depth) {
        const double ahead = base_radius + depth_, c = follower.pivot_radius;
        pivot_ = ahead * facing - side_ * std::sqrt((c - ahead) * (c + ahead)) * quarter_turn(facing);
    }

    /// On a circle: the face's normal, and the lift.
    [[nodiscard]] CentrePlace on(Vec2 centre, double radius) const {
        const Vec2 between = pivot_ - centre;
        const double along = radius + depth_, d = length(between);
        if (std::abs(along) > d) return {};
        const double across = std::sqrt((d - along) * (d + along));
        const Vec2 normal = turned(between / d, Vec2{along / d, side_ * across / d});
        return {normal, -side_ * arm_ * angle_between(facing_, normal)};
    }

  private:
    Vec2 facing_, pivot_;
    double arm_, side_, depth_;
};

double arm_face_lift(const Outline& outline, const FaceOnArm& face) {
    double lift = never;
    for (const OutlinePiece& piece : outline) {
        lift = std::max(lift, face.on(piece.start, 0.0).lift);
        if (piece.bend != Bend::convex) continue;
        const CentrePlace on_arc = face.on(piece.centre, piece.radius);
        if (on_arc.lift > lift && points_at(piece, on_arc.centre)) lift = on_arc.lift;
    }
    return lift;
}

double highest(const CentrePlaces& places, const auto& touches) {
    double lift = never;
    for (const CentrePlace& place : places)
        if (place.lift > lift && touches(place.centre)) lift = place.lift;
    return lift;
}

double lift_on_piece(const OutlinePiece& piece, const auto& guide, double radius) {
    const auto anywhere = [](Vec2) { return true; };
    double lift = radius > 0.0 ? highest(guide.circle(piece.start, radius), anywhere) : never;
    switch (piece.bend) {
        case Bend::convex:
            return std::max(lift,
                            highest(guide.circle(piece.centre, piece.radius + radius),
                                    [&](Vec2 centre) { return points_at(piece, centre - piece.centre); }));
        case Bend::straight:
            return std::max(lift, highest(guide.line(piece.normal, dot(piece.start, piece.normal) + radius),
                                          [&](Vec2 centre) {
                                              return foot_lies_on(piece, centre - radius * piece.normal);
                                          }));
        case Bend::hollow:
            if (radius >= piece.radius) return lift;
            return std::max(lift,
                            highest(guide.circle(piece.centre, piece.radius - radius),
                                    [&](Vec2 centre) { return points_at(piece, centre - piece.centre); }));
    }
    return lift;
}

double round_lift(const Outline& outline, const auto& guide, double radius) {
    double lift = never;
    for (const OutlinePiece& piece : outline)
        lift = std::max(lift, lift_on_piece(piece, guide, radius));
    return lift;
}

}  // namespace

double lift_on_outline(const Outline& outline, const Follower& follower, double base_radius,
                       ShaftAngle facing) {
    const Vec2 f = unit_towards(facing);
    if (follower.kind == FollowerKind::flat)
        return flat_lift(outline, base_radius, f, follower.face_tilt.radians());
    if (follower.has_flat_face()) return arm_face_lift(outline, FaceOnArm(follower, base_radius, f));
    if (follower.kind == FollowerKind::pivoted)
        return round_lift(outline, Pivoted(follower, base_radius, f), follower.radius);
    return round_lift(outline, Translating(follower, base_radius, f), follower.radius);
}

}  // namespace lobewright::hand
