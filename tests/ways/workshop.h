/// A workshop with faults that are known: it cuts parts by a toolpath, with the tests' own sweep, and reads
/// them with an indicator.
#pragma once

#include "basalt.h"
#include "sweep.h"

#include <lobewright/inspect_readings.h>
#include <lobewright/toolpath.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <vector>

namespace workshop {

using namespace lobewright;

inline constexpr int rays = 720;

/// What is wrong.
struct CuttingFault {
    double cutter_smaller = 0.0;  ///< mm of radius
    /// mm by which the cutter is pushed away, by the shaft angle that faces it (radians).
    std::function<double(double)> pushed = [](double) { return 0.0; };
    double spring = 0.0;         ///< share of what a pass is to take that it leaves
    double slack_degrees = 0.0;  ///< of the rotary axis, by which the shaft hangs behind
};

/// A lobe as it is: its radius on rays evenly round from shaft angle 0, mm.
using Part = std::vector<double>;

inline double angle_of(int ray) {
    return full_turn * ray / rays;
}
inline double design_radius(const SolvedLobe& lobe, double phi) {
    return lobe.contour.polar_radius(ShaftAngle::from_radians(phi) - lobe.at);
}

/// The places of the path in steps of a degree or less, as the faults have them.
inline std::vector<sweep::Position> with_faults(const std::vector<sweep::Position>& path,
                                                const sweep::Body& body, const CuttingFault& fault) {
    std::vector<sweep::Position> places;
    const auto put = [&](sweep::Position place) {
        place.radial += fault.pushed(place.rotary * body.facing_per_degree);
        place.rotary -= fault.slack_degrees;
        places.push_back(place);
    };
    put(path.front());
    for (std::size_t i = 1; i < path.size(); ++i) {
        const sweep::Position &a = path[i - 1], &b = path[i];
        const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(b.rotary - a.rotary))));
        for (int k = 1; k <= parts; ++k) {
            const double share = static_cast<double>(k) / parts;
            sweep::Position place = b;
            place.radial = a.radial + share * (b.radial - a.radial);
            place.axial = a.axial + share * (b.axial - a.axial);
            place.rotary = a.rotary + share * (b.rotary - a.rotary);
            put(place);
        }
    }
    return places;
}

/// `before`: the part as it was put in; nothing: the bar.
inline Part cut(const Job& job, const SolvedLobe& lobe, const Toolpath& path, const CuttingFault& fault,
                const Part* before = nullptr) {
    sweep::Body body = sweep::cutting_body(job);
    const double blank = 0.5 * *job.shaft.blank();
    if (body.shape == sweep::Body::Shape::cylinder) {
        body.radius -= fault.cutter_smaller;
        body.tip_from_word += fault.cutter_smaller;
    }
    const sweep::Slab slab(with_faults(sweep::positions_of(path), body, fault), body, lobe.z, blank);
    Part part;
    for (int i = 0; i < rays; ++i) {
        const double stock = before != nullptr ? (*before)[static_cast<std::size_t>(i)] : blank;
        const double swept = slab.radius_on(angle_of(i));
        part.push_back(swept < stock ? swept + fault.spring * (stock - swept) : stock);
    }
    return part;
}

/// How the part stands over the design along its normal, the design turned by `turned` radians.
struct Worst {
    double deepest = 0.0, proudest = 0.0;
};
inline Worst compared(const Part& part, const SolvedLobe& lobe, double turned = 0.0) {
    Worst worst{1e9, -1e9};
    for (int i = 0; i < rays; ++i) {
        const double phi = angle_of(i) - turned;
        const ContourPoint at = lobe.contour.on_ray(ShaftAngle::from_radians(phi) - lobe.at).at;
        const double lean = dot(at.normal, at.point) / length(at.point);
        const double off = (part[static_cast<std::size_t>(i)] - length(at.point)) * lean;
        worst.deepest = std::min(worst.deepest, off), worst.proudest = std::max(worst.proudest, off);
    }
    return worst;
}

/// The same with the design turned to where the part stands nearest to it: phase is no matter of form.
inline Worst compared_at_best(const Part& part, const SolvedLobe& lobe, double about = 0.0) {
    constexpr int steps = 24;
    constexpr double step = 0.005 * std::numbers::pi / 180.0;
    Worst best{-1e9, 1e9};
    for (int i = -steps; i <= steps; ++i) {
        const Worst worst = compared(part, lobe, about + i * step);
        if (std::max(worst.proudest, -worst.deepest) < std::max(best.proudest, -best.deepest)) best = worst;
    }
    return best;
}

/// A flat anvil every degree of cam angle, with noise of that standard deviation: the part between its rays
/// stands over the (turned) design as they do.
inline MeasuredLobe read(const Part& part, const SolvedLobe& lobe, std::size_t index, double noise,
                         unsigned seed, double turned = 0.0) {
    constexpr int fine = 10;
    std::vector<Vec2> outline;
    for (int i = 0; i < fine * rays; ++i) {
        const double phi = full_turn * i / (fine * rays);
        const auto a = static_cast<std::size_t>(i / fine), b = (a + 1) % rays;
        const double share = static_cast<double>(i % fine) / fine;
        const auto over = [&](std::size_t ray) {
            return part[ray] - design_radius(lobe, angle_of(static_cast<int>(ray)) - turned);
        };
        const double radius = design_radius(lobe, phi - turned) + over(a) + share * (over(b) - over(a));
        outline.push_back(radius * unit(phi));
    }
    std::mt19937 random(seed);
    const auto even = [&] { return (static_cast<double>(random()) + 0.5) / 4294967296.0; };
    MeasuredLobe measured;
    measured.lobe = index;
    for (int degree = -180; degree < 180; ++degree) {
        const CamAngle angle = CamAngle::from_degrees(degree);
        const Vec2 ray = unit(lobe.at.radians() - sign_of(lobe.turns) * angle.radians());
        double highest = 0.0;
        for (const Vec2& point : outline)
            highest = std::max(highest, dot(point, ray));
        const double normal = std::sqrt(-2.0 * std::log(even())) * std::cos(2.0 * std::numbers::pi * even());
        measured.readings.push_back(
            {angle, highest - lobe.base_radius + noise * normal, {"readings.csv", degree + 182, 1}});
    }
    return measured;
}

}  // namespace workshop
