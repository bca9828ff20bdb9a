#include "inspect/probe/gauge_bounds.h"

#include "base/whole_steps.h"
#include "profile/roots.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright::inspection {
namespace {

using profile::LobeCurve;
using Contact = const LobeCurve::Contact&;

constexpr double quarter = 0.5 * std::numbers::pi;
constexpr double same_height = 1e-12;  // mm
constexpr int halvings = 60;

/// 1/mm: a contour that is hollow by less is straight but for rounding.
constexpr double least_hollow = 1e-9;

/// Pairs of anvils that are looked at to begin with, over half a turn; and no closer than that, radians.
constexpr int first_pairs = 48;
constexpr double last_step = 1e-9;
/// Either way of the best pair in which the last bits are looked for.
constexpr double last_look = 1e-3;

/// Where the faces of two anvils meet, square to `a` and `b`, that touch at these points.
Vec2 corner_between(double a, Vec2 on_a, double b, Vec2 on_b) {
    const Vec2 along = quarter_turn(unit(a)), to = unit(b);
    return on_a + dot(on_b - on_a, to) / dot(along, to) * along;
}

/// The largest of V·u for u from direction a to b, b - a < half a turn.
double farthest_along(Vec2 v, double a, double b) {
    const double from = wrapped_radians(direction(v) - a);
    if (from >= 0.0 && from <= b - a) return length(v);
    return std::max(dot(v, unit(a)), dot(v, unit(b)));
}

/// What lies between stretches within [low, high], both ascending.
std::vector<Interval> rest_of(const Interval& whole, const std::vector<Interval>& taken) {
    std::vector<Interval> rest;
    double from = whole.low;
    for (const Interval& each : taken) {
        if (each.low > from) rest.push_back({from, each.low});
        from = std::max(from, each.high);
    }
    if (whole.high > from) rest.push_back({from, whole.high});
    return rest;
}

/// Radians: what lies closer meets, but for rounding.
constexpr double meeting = 1e-12;

/// Joins those that overlap or meet.
std::vector<Interval> joined(std::vector<Interval> all) {
    std::sort(all.begin(), all.end(), [](const Interval& a, const Interval& b) { return a.low < b.low; });
    std::vector<Interval> made;
    for (const Interval& each : all) {
        if (!made.empty() && each.low <= made.back().high + meeting)
            made.back().high = std::max(made.back().high, each.high);
        else
            made.push_back(each);
    }
    return made;
}

/// The part of a gap in which nothing lifts the probe; what lifts it comes from the gap's ends.
std::optional<Interval> free_part(const ContourProbe& probe, double over, const Interval& gap) {
    const auto lifted = [&](double ray) { return probe.height(ray) > over; };
    double low = gap.low, high = gap.high, free = gap.middle();
    for (int i = 0; lifted(free); ++i) {
        if (i == halvings) return std::nullopt;
        const double lifter = wrapped_radians(direction(probe.touch(free).point) - free);
        (lifter < 0.0 ? low : high) = free;
        free = 0.5 * (low + high);
    }
    const auto edge = [&](double on, double off) {
        for (int i = 0; i < halvings; ++i) {
            const double ray = 0.5 * (on + off);
            (lifted(ray) ? off : on) = ray;
        }
        return on;
    };
    return Interval{edge(free, low), edge(free, high)};
}

}  // namespace

/// Two parallel anvils on the lobe.
struct GaugeBounds::AnvilPair {
    double ray = 0.0;
    Vec2 here, there;  // points that they touch
    double size = 0.0;
};

GaugeBounds::GaugeBounds(const SolvedLobe& lobe, const ContourProbe& anvil)
    : lobe_(lobe), anvil_(anvil), curve_(lobe.motion.pieces(), lobe.follower, lobe.base_radius, lobe.turns) {}

double GaugeBounds::direction_of_contact(double cam_angle) const {
    const FollowerContact contact = contact_at(lobe_, CamAngle::from_radians(cam_angle));
    return wrapped_radians(direction(contact.contact.point) - lobe_.at.radians());
}

/// The cam angle, within the period, at which the follower touches the contour in that direction: the
/// direction of the contact only grows, or only falls, and is within a right angle of the follower's own.
double GaugeBounds::cam_angle_touched(double direction) const {
    const double about = -sign_of(lobe_.turns) * direction;
    const auto off = [&](double angle) { return wrapped_radians(direction_of_contact(angle) - direction); };
    const double angle = profile::root_of(off, about - quarter, about + quarter);
    const double period = lobe_.motion.period().radians();
    return angle - period * std::floor(angle / period + 0.5);
}

double GaugeBounds::farthest() const {
    const FigureAt most = curve_.largest([](Contact c) { return c.distance_squared(); });
    const double highest = std::sqrt(most.value) - lobe_.base_radius;
    if (!most.at || anvil_.height(0.0) >= highest - same_height) return 0.0;
    return direction_of_contact(most.at->radians());
}

/// Cam angles of the contacts that no bridge of the anvil's hides. Over every hollow the anvil goes from one
/// point to the next at one direction, which halving finds: what it touches only moves on round the lobe.
std::vector<Interval> GaugeBounds::touched_by_anvil() const {
    const double half = 0.5 * lobe_.motion.period().radians();
    const Interval period{-half, half};
    std::vector<Interval> hidden;
    for (const Interval& hollow : curve_.above([](Contact c) { return -c.curvature(); }, least_hollow)) {
        const double middle = direction_of_contact(hollow.middle());
        const auto ahead = [&](double ray) {
            return wrapped_radians(direction(anvil_.touch(ray).point) - middle);
        };
        double low = middle - quarter, high = middle + quarter;
        for (int i = 0; i < halvings; ++i) {
            const double ray = 0.5 * (low + high);
            (ahead(ray) < 0.0 ? low : high) = ray;
        }
        double a = cam_angle_touched(middle + ahead(low)), b = cam_angle_touched(middle + ahead(high));
        if (lobe_.turns == Sense::ccw) std::swap(a, b);
        if (a <= b)
            hidden.push_back({a, b});
        else if (a - b > half)  // round the period's seam
            hidden.push_back({-half, b}), hidden.push_back({a, half});
    }
    return rest_of(period, joined(std::move(hidden)));
}

double GaugeBounds::anvil_reach() const {
    const auto aside = [](Contact c) { return c.distance_squared() - square(c.outward()); };
    return std::sqrt(std::max(0.0, curve_.largest_on(aside, touched_by_anvil()).value));
}

GaugeBounds::AnvilPair GaugeBounds::pair_at(double ray) const {
    const ProbeTouch here = anvil_.touch(ray), there = anvil_.touch(ray + std::numbers::pi);
    return {ray, here.point, there.point, here.height + there.height + 2.0 * lobe_.base_radius};
}

void GaugeBounds::look_between(const AnvilPair& a, const AnvilPair& b, GaugePlace& best) const {
    const Vec2 here = corner_between(a.ray, a.here, b.ray, b.here);
    const Vec2 there = corner_between(a.ray + std::numbers::pi, a.there, b.ray + std::numbers::pi, b.there);
    if (farthest_along(here - there, a.ray, b.ray) <= best.value + across_margin) return;
    if (b.ray - a.ray < last_step) return;
    const AnvilPair middle = pair_at(0.5 * (a.ray + b.ray));
    if (middle.size > best.value + same_height) best = {middle.ray, middle.size};
    look_between(a, middle, best);
    look_between(middle, b, best);
}

GaugePlace GaugeBounds::across() const {
    GaugePlace best{0.0, pair_at(0.0).size};
    std::vector<AnvilPair> pairs;
    for (int i = 0; i <= first_pairs; ++i) {
        pairs.push_back(pair_at(-quarter + std::numbers::pi * i / first_pairs));
        if (pairs.back().size > best.value + same_height) best = {pairs.back().ray, pairs.back().size};
    }
    for (std::size_t i = 1; i < pairs.size(); ++i)
        look_between(pairs[i - 1], pairs[i], best);
    double low = best.ray - last_look, high = best.ray + last_look;
    constexpr double part = 0.6180339887498949;  // the golden section's
    for (int i = 0; i < halvings; ++i) {
        const double inner = high - part * (high - low), outer = low + part * (high - low);
        const bool left = pair_at(inner).size >= pair_at(outer).size;
        (left ? high : low) = left ? outer : inner;
    }
    const double ray = 0.5 * (low + high);
    if (const double size = pair_at(ray).size; size > best.value + same_height) best = {ray, size};
    // Of the two anvils the one over the point farther out.
    if (anvil_.height(best.ray) < anvil_.height(best.ray + std::numbers::pi) - same_height)
        best.ray = wrapped_radians(best.ray + std::numbers::pi);
    return best;
}

/// Directions of the contour's points that lie farther out, all round the ring, within [-pi, pi].
std::vector<Interval> GaugeBounds::rays_over(double radius) const {
    std::vector<Interval> rays;
    const auto add = [&](double low, double width) {
        low = wrapped_radians(low);
        rays.push_back({low, std::min(low + width, std::numbers::pi)});
        if (low + width > std::numbers::pi) rays.push_back({-std::numbers::pi, low + width - full_turn});
    };
    const auto out = [](Contact c) { return c.distance_squared(); };
    for (const Interval& angles : curve_.above(out, radius * radius)) {
        double from = direction_of_contact(angles.low), to = direction_of_contact(angles.high);
        if (lobe_.turns == Sense::ccw) std::swap(from, to);
        const double turned = to - from;
        const double width =
            turned + full_turn * static_cast<double>(nearest_step((angles.width() - turned) / full_turn));
        for (int i = 0; i < lobe_.repeat; ++i)
            add(from + full_turn * i / lobe_.repeat, std::max(0.0, width));
    }
    return joined(std::move(rays));
}

std::vector<Interval> GaugeBounds::stretches_on_base(const ContourProbe& probe, double over) const {
    const std::vector<Interval> raised = rays_over(lobe_.base_radius + over);
    if (raised.empty()) return {};
    std::vector<Interval> gaps = rest_of({-std::numbers::pi, std::numbers::pi}, raised);
    const bool seam =
        gaps.size() > 1 && gaps.front().low == -std::numbers::pi && gaps.back().high == std::numbers::pi;
    if (seam) {
        gaps.back().high = gaps.front().high + full_turn;
        gaps.erase(gaps.begin());
    }
    std::vector<Interval> stretches;
    for (const Interval& gap : gaps) {
        if (const auto part = free_part(probe, over, gap)) stretches.push_back(*part);
    }
    return stretches;
}

}  // namespace lobewright::inspection
