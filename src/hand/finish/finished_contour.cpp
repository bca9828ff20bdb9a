#include "hand/finish/finished_contour.h"

#include "hand/outline/follower_on_outline.h"

#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace lobewright::hand {
namespace {

/// A contour point of the lobe's frame in the shaft's.
ContourPoint on_shaft(const ContourPoint& here, Vec2 nose) {
    return {turned(here.point, nose), turned(here.normal, nose), here.curvature, here.speed};
}

/// Least value of a smooth function over [low, high] by samples, refined round the least of them.
double least(const std::function<double(double)>& function, double low, double high) {
    constexpr int samples = 64;
    const auto at = [&](int i) { return low + (high - low) * i / samples; };
    int best = 0;
    double value = function(low);
    for (int i = 1; i <= samples; ++i) {
        const double here = function(at(i));
        if (here < value) value = here, best = i;
    }
    boost::uintmax_t iterations = 60;
    const auto refined = boost::math::tools::brent_find_minima(
        function, at(std::max(0, best - 1)), at(std::min(samples, best + 1)), 40, iterations);
    return std::min(value, refined.second);
}

/// Distance of a point outside a convex contour from it (negative just inside), all in the lobe's frame.
double height_over(const TouchMap& normals, Vec2 point) {
    const double towards = direction(point);
    const double quarter = std::numbers::pi / 2.0;
    const double from = normals.touch(towards - quarter).way;
    double to = normals.touch(towards + quarter).way;
    if (to < from) to += normals.turn();
    const ContourPoint foot = normals.foot(from, to, point).at;
    return dot(point - foot.point, foot.normal);
}

double highest_corner(const SolvedLobe& lobe, const Outline& outline) {
    const TouchMap normals(lobe.contour, std::nullopt);
    const Vec2 back = unit(-lobe.at.radians());
    double highest = 0.0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const OutlinePiece& before = outline[(i + outline.size() - 1) % outline.size()];
        if (before.cut == OutlinePiece::filed || outline[i].cut == OutlinePiece::filed) continue;
        highest = std::max(highest, height_over(normals, turned(outline[i].start, back)));
        if (outline[i].cut != OutlinePiece::blank) continue;
        const Vec2 middle = outline[i].radius * unit((outline[i].from + outline[i].to) / 2.0);
        highest = std::max(highest, height_over(normals, turned(middle, back)));
    }
    return highest;
}

/// How far out of the blank's outside a point inside lies, along a unit vector; negative where it lies
/// outside.
double exit_of_blank(double blank_radius, Vec2 point, Vec2 normal) {
    const double across = cross(point, normal);
    return std::sqrt(std::max(0.0, blank_radius * blank_radius - across * across)) - dot(point, normal);
}

/// Largest value of a function of the way over a map, smooth within each of its stretches.
double largest_along(const std::function<double(double)>& function, double from, double to) {
    double largest = std::max(function(from), function(to));
    for (double start = from; start < to;) {
        const double end = std::min(to, std::floor(start) + 1.0);
        largest = std::max(largest, -least([&](double way) { return -function(way); }, start, end));
        start = end;
    }
    return largest;
}

/// The first place from `from` on, in steps of `step`, where the function turns positive, or (if `falls`) is
/// so no more.
std::optional<double> crossing(const std::function<double(double)>& lift_over, double from, double step,
                               bool falls) {
    constexpr int furthest = 1800;
    double before = from;
    for (int i = 1; i <= furthest; ++i) {
        const double there = from + step * i;
        if ((lift_over(there) > 0.0) == falls) {
            before = there;
            continue;
        }
        boost::uintmax_t iterations = 100;
        const auto [low, high] = std::minmax(before, there);
        const auto bracket = boost::math::tools::toms748_solve(
            lift_over, low, high, boost::math::tools::eps_tolerance<double>(48), iterations);
        return (bracket.first + bracket.second) / 2.0;
    }
    return std::nullopt;
}

/// Where the valve leaves (or comes back to) its seat, nearest the designed place. `towards_peak` is +1 for
/// opening.
std::optional<double> event_near(const std::function<double(double)>& lift_over, double designed,
                                 double towards_peak) {
    const double step = towards_peak * std::numbers::pi / 3600.0;  // a twentieth of a degree
    return lift_over(designed) > 0.0 ? crossing(lift_over, designed, -step, true)
                                     : crossing(lift_over, designed, step, false);
}

}  // namespace

Deviations deviations_of_arcs(const SolvedLobe& lobe, const std::vector<HandCut>& cuts, double blank_radius,
                              const std::vector<FiledNose>& noses, const Outline& outline) {
    const Vec2 nose = unit(lobe.at.radians());
    const auto off = [&](const ContourPoint& here) {
        const ContourPoint p = on_shaft(here, nose);
        double exit = exit_of_blank(blank_radius, p.point, p.normal);
        for (const HandCut& cut : cuts)
            exit = std::min(exit, exit_along(cut, p.point, p.normal));
        for (const FiledNose& filed_nose : noses)
            exit = std::min(exit, exit_along(filed_nose, p.point, p.normal));
        return exit;
    };
    Deviations result;
    result.highest_ridge = highest_corner(lobe, outline);
    result.proudest = result.highest_ridge;
    for (const ContourPiece& piece : lobe.contour.pieces()) {
        const auto deviation = [&](double t) { return off(piece.at(t)); };
        result.deepest = std::min(result.deepest, least(deviation, piece.start, piece.end));
        result.proudest = std::max(result.proudest,
                                   -least([&](double t) { return -deviation(t); }, piece.start, piece.end));
    }
    return result;
}

std::optional<double> ridge_between(const TouchMap& map, const Facet& first, const Facet& second,
                                    std::optional<double> blank_radius) {
    const auto corner = corner_between(first.cut, second.cut);
    if (corner && (!blank_radius || length(*corner) <= *blank_radius)) {
        const ContourPoint foot = map.foot(first.way, second.way, *corner).at;
        return std::max(0.0, dot(*corner - foot.point, foot.normal));
    }
    if (!blank_radius) return std::nullopt;
    const auto left = [&](double way) {
        const ContourPoint here = map.at(way);
        return std::min({exit_of_blank(*blank_radius, here.point, here.normal),
                         exit_along(first.cut, here.point, here.normal),
                         exit_along(second.cut, here.point, here.normal)});
    };
    return std::max(0.0, largest_along(left, first.way, second.way));
}

double judged_lift(const Job& job, const SolvedLobe& lobe) {
    const LobeEntry& entry = job.lobes[lobe.entry];
    if (job.engine && entry.cylinder > 0) {
        const auto& timing = entry.valve == Valve::inlet ? job.engine->inlet : job.engine->exhaust;
        if (timing && timing->clearance > 0.0) return timing->clearance / lobe.follower.valve_ratio;
    }
    return lobe.lift / 20.0;
}

TimingError timing_error(const SolvedLobe& lobe, const Outline& outline, double judged_at) {
    const double sense = sign_of(lobe.turns);
    const auto lift_over = [&](double cam_angle) {
        const auto facing = lobe.at - ShaftAngle::from_radians(sense * cam_angle);
        return lift_on_outline(outline, lobe.follower, lobe.base_radius, facing) - judged_at;
    };
    TimingError error;
    for (const OutlinePiece& corner : outline) {
        const double cam_angle = sense * (lobe.at.radians() - corner.from);
        const bool on_heel = lobe.motion.at(CamAngle::from_radians(cam_angle)).lift <= 0.0;
        if (on_heel && lift_over(cam_angle) > 0.0) error.shuts = false;
    }
    if (!error.shuts) return error;
    const LiftEvents designed = events_at(lobe.motion, judged_at);
    const auto late = [&](CamAngle event, double towards_peak) {
        const bool lifted = lift_over(event.radians()) > 0.0;
        const auto found = event_near(lift_over, event.radians(), towards_peak);
        if (!found) (lifted ? error.shuts : error.opens) = false;
        return found ? CamAngle::from_radians(*found) - event : CamAngle{};
    };
    error.opens_late = late(designed.opens, 1.0);
    error.closes_late = late(designed.closes, -1.0);
    return error;
}

double cam_per_crank(const Job& job) {
    return job.engine ? job.engine->cam_per_crank : 0.5;
}

void put_timing(const Job& job, const SolvedLobe& lobe, const Outline& outline, HandFinish& finish) {
    const TimingError error = timing_error(lobe, outline, judged_lift(job, lobe));
    const auto crank = [&](CamAngle late) {
        return CrankAngle::from_radians(late.radians() / cam_per_crank(job));
    };
    finish.valve_shuts = error.shuts;
    finish.valve_opens = error.opens;
    finish.opens_late = crank(error.opens_late);
    finish.closes_late = crank(error.closes_late);
}

}  // namespace lobewright::hand
