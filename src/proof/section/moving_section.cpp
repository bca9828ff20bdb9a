#include "proof/section/moving_section.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

namespace lobewright::proof {
namespace {

/// The section at one place, and the ray in its frame: x along u, y along t.
struct Pose {
    double low;    // height of the section's lowest point
    double slope;  // of it, by φ
    Vec2 ray;      // (cos δ, sin δ)
};

/// Where the ray enters the section, and the boundary's outward normal there. A miss says on which side of
/// the section the ray passes: +1 beyond its +t wall, so that a larger φ brings the section to it.
struct Hit {
    double radius = nowhere;
    Vec2 normal;
    int side = 0;
};

Hit miss(int side) {
    return {nowhere, {}, side};
}

Hit enter_arc(double radius, Vec2 centre, Vec2 ray) {
    const double along = dot(centre, ray), across = cross(ray, centre);
    const double depth = radius * radius - across * across;
    if (depth < 0.0) return miss(across < 0.0 ? 1 : -1);
    const double root = std::sqrt(depth);
    if (along + root < 0.0) return miss(across < 0.0 ? 1 : -1);
    if (along <= root) return {0.0, -ray, 0};
    const double entry = along - root;
    return {entry, (entry * ray - centre) / radius, 0};
}

/// A ray that passes the flat on the `side` of its middle and leans back to it meets the wall there.
Hit enter_wall(const PlaneSection& section, double low, Vec2 ray, int side) {
    const double wall = section.shift + side * section.half_width();
    if (side * ray.y >= 0.0 || wall * ray.y <= 0.0) return miss(side);
    const double entry = wall / ray.y;
    if (entry * ray.x < low + section.corner) return miss(side);
    return {entry, {0.0, static_cast<double>(side)}, 0};
}

/// Height of a turned body's end over the tip, with its slope, at `y` from the section's middle (either
/// sign); past the walls: none.
struct Profile {
    double height = nowhere;
    double slope = 0.0;
};

/// The cone of a hollow end, which leaves its rounding along the tangent: (ring - ρ) tan δ - r (1/cos δ - 1),
/// ρ² = y² + off².
Profile cone_profile(const PlaneSection& section, double y) {
    const double from_axis = std::sqrt(y * y + section.off * section.off);
    const double secant = std::sqrt(1.0 + section.dish * section.dish);
    const double along = from_axis > 0.0 ? y / from_axis : 0.0;
    return {(section.ring - from_axis) * section.dish - section.corner * (secant - 1.0),
            -section.dish * along};
}

/// r - √(r² - (ρ - ring)²); level inside of it where the end is square.
Profile corner_profile(const PlaneSection& section, double y) {
    const double from_axis = std::sqrt(y * y + section.off * section.off);
    const double over = from_axis - section.ring;
    if (over <= 0.0 && section.dish == 0.0) return {0.0, 0.0};
    const double depth = section.corner * section.corner - over * over;
    if (depth <= 0.0) return {};
    const double root = std::sqrt(depth);
    return {section.corner - root, y / from_axis * over / root};
}

/// A step of the entry along a profile that is smaller, as a share of its place, is rounding.
constexpr double settled_step = 1e-13;

/// Newton's steps outwards along the profile: (s + y) cos δ - (T + h(y)) sin δ rises to its first zero and is
/// concave, so that they come from one side and stay there.
Hit enter_off_axis_corner(const PlaneSection& section, double tip, Vec2 ray) {
    const int side = ray.y * tip / ray.x - section.shift >= 0.0 ? 1 : -1;
    const Vec2 r{ray.x, side * ray.y};  // mirrored, so that the entry lies at y >= 0
    const double shift = side * section.shift;
    double y = std::max(0.0, r.y * tip / r.x - shift);
    for (int i = 0; i < 60; ++i) {
        const Profile at = corner_profile(section, y);
        if (at.height == nowhere) return miss(side);
        const double short_of = (tip + at.height) * r.y - (shift + y) * r.x;
        const double rate = r.x - at.slope * r.y;
        if (rate <= 0.0) return miss(side);
        const double step = short_of / rate;
        y = std::max(0.0, y + step);
        if (std::abs(step) < settled_step * (1.0 + y)) break;
    }
    const Profile at = corner_profile(section, y);
    if (at.height == nowhere) return miss(side);
    const Vec2 point{tip + at.height, side * (shift + y)};
    const double norm = std::sqrt(1.0 + at.slope * at.slope);
    return {dot(point, ray), {-1.0 / norm, side * at.slope / norm}, 0};
}

/// How high a place of the ray, `along` of it from the axis, lies over the end of a hollow mill; its rate.
struct Over {
    double over = -nowhere;
    double rate = 0.0;
};
Over over_end(const PlaneSection& section, double tip, Vec2 ray, double along, bool cone) {
    const double y = along * ray.y - section.shift;
    const Profile at = cone ? cone_profile(section, y) : corner_profile(section, y);
    return {along * ray.x - tip - at.height, ray.x - at.slope * ray.y};
}

/// Newton's steps from a place on, no further than `to` where they go out.
std::optional<double> stepped(const PlaneSection& section, double tip, Vec2 ray, double along, double to,
                              bool cone) {
    for (int i = 0; i < 60; ++i) {
        const Over at = over_end(section, tip, ray, along, cone);
        if (at.rate <= 0.0 || !std::isfinite(at.over)) return std::nullopt;
        const double step = at.over / at.rate;
        along -= step;
        if (along > to) return std::nullopt;
        if (std::abs(step) < settled_step * (1.0 + along)) break;
    }
    return along;
}

/// Between a place under the end and one over it, by halving.
double halved(const PlaneSection& section, double tip, Vec2 ray, double under, double over) {
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (under + over);
        (over_end(section, tip, ray, middle, false).over < 0.0 ? under : over) = middle;
    }
    return over;
}

/// The first place of the ray, from `from` to `to`, on the end; nothing if none. Along the cone the height
/// over it is convex, and Newton's steps come from the far side; along the rounding it is concave, and they
/// come from the near side where the ray runs out to the wall, beyond which there is nothing. A ray that runs
/// in rises over the rounding all the way.
std::optional<double> first_on_end(const PlaneSection& section, double tip, Vec2 ray, double from, double to,
                                   bool cone) {
    std::optional<double> found;
    const bool inwards = (0.5 * (from + to) * ray.y - section.shift) * ray.y < 0.0;
    if (cone || inwards) {
        if (over_end(section, tip, ray, to, cone).over < 0.0) return std::nullopt;
        found = cone ? stepped(section, tip, ray, to, to, true) : halved(section, tip, ray, from, to);
    } else {
        found = stepped(section, tip, ray, from, to, false);
    }
    return found ? std::optional(std::max(*found, from)) : found;
}

/// The hollow end of a mill: stretch by stretch between the places where the ray passes from the rounding to
/// the cone and back; past a wall it meets that, or nothing.
class HollowEnd {
  public:
    HollowEnd(const PlaneSection& section, double tip, Vec2 ray)
        : section_(section), tip_(tip), ray_(ray), wall_(section.half_width()) {}

    [[nodiscard]] Hit enter() const {
        double from = tip_ / ray_.x;
        if (std::abs(beside(from)) > wall_) {
            const int side = beside(from) > 0.0 ? 1 : -1;
            if (side * ray_.y >= 0.0) return miss(side);
            const double at_wall = (section_.shift + side * wall_) / ray_.y;
            if (at_wall <= from) return miss(side);
            if (at_wall * ray_.x >= tip_ + height_at_wall())
                return {at_wall, {0.0, static_cast<double>(side)}, 0};
            from = at_wall;
        }
        for (const auto& [to, cone] : stretches(from)) {
            const auto along = to > from ? first_on_end(section_, tip_, ray_, from, to, cone) : std::nullopt;
            if (along) return hit(*along, cone);
            from = to;
        }
        return miss(ray_.y > 0.0 ? 1 : -1);
    }

  private:
    [[nodiscard]] double beside(double along) const { return along * ray_.y - section_.shift; }
    [[nodiscard]] double height_at_wall() const { return section_.corner; }
    [[nodiscard]] Hit hit(double along, bool cone) const {
        const double y = beside(along);
        const Profile at = cone ? cone_profile(section_, y) : corner_profile(section_, y);
        const double norm = std::sqrt(1.0 + at.slope * at.slope);
        return {along, {-1.0 / norm, at.slope / norm}, 0};
    }
    struct Stretch {
        double to;
        bool cone;
    };
    /// From a place between the walls on, to the wall that the ray runs to; a ray along u runs on.
    [[nodiscard]] std::vector<Stretch> stretches(double from) const {
        const double secant = std::sqrt(1.0 + section_.dish * section_.dish);
        const double inner = section_.ring - section_.corner * section_.dish / secant;
        const double square = inner * inner - section_.off * section_.off;
        const double cone = inner > 0.0 && square > 0.0 ? std::sqrt(square) : 0.0;
        const double far = from + far_along_;
        const auto reached = [&](double y) {
            return ray_.y == 0.0 ? far : std::min(far, std::max(from, (section_.shift + y) / ray_.y));
        };
        const int way = ray_.y >= 0.0 ? 1 : -1;
        const double at = way * beside(from);
        std::vector<Stretch> found;
        if (at < -cone) found.push_back({reached(-way * cone), false});
        if (at < cone) found.push_back({reached(way * cone), true});
        found.push_back({reached(way * wall_), false});
        return found;
    }

    static constexpr double far_along_ = 1e3;  // mm
    const PlaneSection& section_;
    double tip_;
    Vec2 ray_;
    double wall_;
};

/// Height of an off-axis corner section's lowest point over the plane of its flat.
double off_axis_raise(const PlaneSection& section) {
    const double over = section.off - section.ring;
    if (over <= 0.0) return 0.0;
    return section.corner - std::sqrt(std::max(0.0, section.corner * section.corner - over * over));
}

/// A ray that leans from u by so nearly a quarter turn (by its cosine) meets the flat farther out than any
/// blank: past 1e6 mm for 1 mm of height.
constexpr double square_ray = 1e-9;

Hit enter(const PlaneSection& section, double low, Vec2 ray) {
    if (section.half_flat == 0.0 && !section.turned()) {
        return enter_arc(section.corner, {low + section.corner, section.shift}, ray);
    }
    if (ray.x <= square_ray) return miss(ray.y >= 0.0 ? 1 : -1);
    if (section.dish > 0.0) return HollowEnd(section, low - off_axis_raise(section), ray).enter();
    const double y = low * ray.y / ray.x - section.shift;
    if (std::abs(y) <= section.half_flat) return {low / ray.x, {-1.0, 0.0}, 0};
    if (section.turned()) return enter_off_axis_corner(section, low - off_axis_raise(section), ray);
    const int side = y > 0.0 ? 1 : -1;
    if (section.corner > 0.0) {
        const Hit arc =
            enter_arc(section.corner, {low + section.corner, section.shift + side * section.half_flat}, ray);
        if (arc.radius != nowhere) return arc;
    }
    return enter_wall(section, low, ray, side);
}

/// (cos w, -sin w) for the small turns within a step: the series ends below 1e-16 up to a degree.
Vec2 turned_back(double w) {
    const double square = w * w;
    return {1.0 - square / 2.0 * (1.0 - square / 12.0 * (1.0 - square / 30.0)),
            -w * (1.0 - square / 6.0 * (1.0 - square / 20.0))};
}

Pose pose_at(const SweepStep& step, Vec2 ray_at_start, double way) {
    return {step.low + step.slope * way, step.slope, turned(ray_at_start, turned_back(way))};
}

/// dg/dφ where the ray is fixed: the boundary's points move by (slope - y) along u and x along t.
double by_facing(const Hit& hit, const Pose& pose) {
    if (hit.radius == nowhere) return hit.side > 0 ? -nowhere : nowhere;
    const Vec2 point = hit.radius * pose.ray;
    const Vec2 velocity{pose.slope - point.y, point.x};
    return dot(velocity, hit.normal) / dot(pose.ray, hit.normal);
}

Entry entry_of(const Hit& hit, const Pose& pose) {
    if (hit.radius == nowhere) return {};
    return {hit.radius, -hit.radius * dot(quarter_turn(pose.ray), hit.normal) / dot(pose.ray, hit.normal)};
}

/// A sharp end of the flat draws the surface itself: its radius by its direction, as φ runs.
Entry corner_entry(const PlaneSection& section, const Hit& hit, const Pose& pose) {
    const Vec2 point = hit.radius * pose.ray;
    const double end =
        point.y > section.shift ? section.shift + section.half_flat : section.shift - section.half_flat;
    const double square = hit.radius * hit.radius;
    const double radial = point.x * pose.slope / hit.radius;
    const double turning = 1.0 - end * pose.slope / square;
    return {hit.radius, turning != 0.0 ? radial / turning : 0.0};
}

/// Slopes below this are as good as level: the radius is then within slope²/(2g'') < 1e-9 mm of the least.
constexpr double level = 1e-5;

/// Radians: two bounds so near are one place, by rounding (angles run to some turns, each to 1e-15).
constexpr double same_way = 1e-14;

struct Bound {
    double way, slope;
    Hit hit;
    Pose pose;
};

Bound bound_at(const PlaneSection& section, const SweepStep& step, Vec2 ray, double way) {
    const Pose pose = pose_at(step, ray, way);
    const Hit hit = enter(section, pose.low, pose.ray);
    return {way, by_facing(hit, pose), hit, pose};
}

/// The next place to look at between two bounds: a secant of the slopes (halved on a side that stays, after
/// Illinois), or the middle where a slope is not finite.
double next_way(const Bound& a, const Bound& b, double weight_a, double weight_b) {
    const double slope_a = a.slope * weight_a, slope_b = b.slope * weight_b;
    if (!std::isfinite(slope_a) || !std::isfinite(slope_b)) return 0.5 * (a.way + b.way);
    return a.way + (b.way - a.way) * slope_a / (slope_a - slope_b);
}

}  // namespace

Vec2 SweepStep::to() const {
    return turned(from, turned_back(-span));
}

Entry least_entry(const PlaneSection& section, const SweepStep& step, Vec2 ray) {
    const Vec2 at_start{dot(step.from, ray), cross(step.from, ray)};
    Bound a = bound_at(section, step, at_start, 0.0);
    if (a.slope >= -level || step.span == 0.0) return entry_of(a.hit, a.pose);
    Bound b = bound_at(section, step, at_start, step.span);
    if (b.slope <= level) return entry_of(b.hit, b.pose);
    double weight_a = 1.0, weight_b = 1.0;
    for (int i = 0, last = 0; i < 100 && b.way - a.way > same_way; ++i) {
        const Bound c = bound_at(section, step, at_start, next_way(a, b, weight_a, weight_b));
        if (std::abs(c.slope) <= level) return entry_of(c.hit, c.pose);
        if (c.slope < 0.0) {
            weight_b = last < 0 ? 0.5 * weight_b : 1.0;
            weight_a = 1.0;
            last = -1;
            a = c;
        } else {
            weight_a = last > 0 ? 0.5 * weight_a : 1.0;
            weight_b = 1.0;
            last = 1;
            b = c;
        }
    }
    const Bound& best = a.hit.radius <= b.hit.radius ? a : b;
    const bool at_sharp_end = a.hit.radius == nowhere || b.hit.radius == nowhere;
    if (best.hit.radius == nowhere) return {};
    return at_sharp_end ? corner_entry(section, best.hit, best.pose) : entry_of(best.hit, best.pose);
}

/// The point at `radius` on the ray lies inside an arc's disc where r² > distance², and can lie above a flat
/// only where it is higher than it; both are looked at at the step's ends, with what they can gain in
/// between: a second derivative of at most M gains M span² / 8. Of the ray, the part up to the place nearest
/// the disc's centre counts. A ray turned by `around` has no point up to that radius that moves by more than
/// radius * around.
bool may_reach_below(const PlaneSection& section, const SweepStep& step, Vec2 ray, double radius,
                     double around) {
    const double low1 = step.low_at_end();
    const double eighth = 0.125 * step.span * step.span;
    const double moved = radius * around;
    if (section.half_flat > 0.0 || section.turned()) {
        const double over0 = radius * dot(step.from, ray) - step.low;
        const double over1 = radius * dot(step.to(), ray) - low1;
        return std::max(over0, over1) + radius * eighth + moved > 0.0;
    }
    const double r = section.corner, s = section.shift, slope = std::abs(step.slope);
    const auto distance_square = [&](Vec2 u, double low) {
        const Vec2 centre = (low + r) * u + s * quarter_turn(u);
        const Vec2 off = std::min(radius, dot(centre, ray)) * ray - centre;
        return dot(off, off);
    };
    const double bend = 2.0 * slope * slope + 2.0 * radius * (2.0 * slope + step.low + r + std::abs(s));
    const double least = (r + moved) * (r + moved) + bend * eighth;
    const double at_from = distance_square(step.from, step.low);
    if (at_from < least) return true;
    // Over the whole step the centre gets no farther than this.
    const double way = (std::abs(step.low) + r + std::abs(s) + slope * (1.0 + step.span)) * step.span;
    const double farthest = r + moved + way;
    return at_from < farthest * farthest && distance_square(step.to(), low1) < least;
}

Vec2 trace_point(const PlaneSection& section, const SweepStep& step, double way) {
    const double low = step.low + step.slope * way;
    const Vec2 u = turned(step.from, unit(way)), t = quarter_turn(u);
    const double y = step.slope - section.shift;
    const auto shaft = [&](double height, double along) { return height * u + along * t; };
    if (step.span == 0.0) return shaft(low, section.shift);
    if (section.corner == 0.0 || std::abs(y) <= section.half_flat || section.turned()) {
        const double reach = section.turned() ? section.half_width() : section.half_flat;
        return shaft(low, section.shift + std::clamp(y, -reach, reach));
    }
    const double s = section.shift + (y > 0.0 ? section.half_flat : -section.half_flat);
    const double c = low + section.corner;
    const Vec2 normal = Vec2{-c, step.slope - s} / length({c, step.slope - s});
    return shaft(c + section.corner * normal.x, s + section.corner * normal.y);
}

}  // namespace lobewright::proof
