#include "proof/judge/plane_rays.h"

#include <lobewright/angle.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace lobewright::proof {
namespace {

/// Some 20 MB of rays.
constexpr std::size_t steps_a_part = 50000;

}  // namespace

RayFinder::RayFinder(const std::vector<DesignRay>& rays) : rays_(rays), first_(sectors + 1, 0) {
    const double start = rays.front().psi;
    std::size_t ray = 0;
    for (std::size_t i = 0; i <= sectors; ++i) {
        const double psi = start + full_turn * static_cast<double>(i) / sectors;
        while (ray + 2 < rays.size() && rays[ray + 1].psi <= psi)
            ++ray;
        first_[i] = ray;
    }
}

double RayFinder::in_turn(double psi) const {
    const double start = rays_.front().psi;
    const double rest = std::fmod(psi - start, full_turn);
    return start + (rest < 0.0 ? rest + full_turn : rest);
}

std::size_t RayFinder::before(double psi) const {
    const double share = (psi - rays_.front().psi) / full_turn;
    std::size_t ray = first_[std::min<std::size_t>(sectors, static_cast<std::size_t>(share * sectors))];
    while (ray + 2 < rays_.size() && rays_[ray + 1].psi <= psi)
        ++ray;
    return ray;
}

std::size_t PlaneRays::parts() const {
    return 1 + sweep_.steps().size() / steps_a_part;
}

/// With the ray that closes it, the last part.
std::vector<DesignRay> PlaneRays::part(std::size_t index) const {
    const std::size_t all = fixed_.size() - 1;
    const Gaps gaps{index * all / parts(), (index + 1) * all / parts()};
    const std::size_t end = gaps.end == all ? fixed_.size() : gaps.end;
    std::vector<DesignRay> rays(fixed_.begin() + static_cast<std::ptrdiff_t>(gaps.begin),
                                fixed_.begin() + static_cast<std::ptrdiff_t>(end));
    add_rays_of_steps(gaps, rays);
    std::sort(rays.begin(), rays.end(), [](const DesignRay& a, const DesignRay& b) {
        return std::tie(a.psi, a.piece, a.t) < std::tie(b.psi, b.piece, b.t);
    });
    return rays;
}

void PlaneRays::add_rays_of_steps(Gaps gaps, std::vector<DesignRay>& rays) const {
    for (const SweepStep& step : sweep_.steps()) {
        if (step.hidden != 0) continue;
        const PlaneSection& section = sweep_.section(step);
        if (step.span > 0.0) {
            add_ray_through(trace_point(section, step, 0.0), gaps, rays);
            add_ray_through(trace_point(section, step, step.span), gaps, rays);
        }
        if (section.half_flat > 0.0 || section.turned()) add_corner_rays(section, step, gaps, rays);
    }
}

void PlaneRays::add_corner_rays(const PlaneSection& section, const SweepStep& step, Gaps gaps,
                                std::vector<DesignRay>& rays) const {
    const Vec2 to = step.to();
    for (const int side : {-1, 1}) {
        const double along = section.shift + side * section.half_flat;
        add_ray_through(step.low * step.from + along * quarter_turn(step.from), gaps, rays);
        add_ray_through(step.low_at_end() * to + along * quarter_turn(to), gaps, rays);
    }
}

/// Only for points near the design, or below it.
void PlaneRays::add_ray_through(Vec2 point, Gaps gaps, std::vector<DesignRay>& rays) const {
    const double psi = finder_.in_turn(direction(point));
    const std::size_t index = finder_.before(psi);
    if (index < gaps.begin || index >= gaps.end) return;
    const DesignRay &a = fixed_[index], &b = fixed_[index + 1];
    const double share = b.psi > a.psi ? std::clamp((psi - a.psi) / (b.psi - a.psi), 0.0, 1.0) : 0.0;
    if (length(point) > a.radius + share * (b.radius - a.radius) + near_) return;
    if (psi - a.psi > same_ray && b.psi - psi > same_ray) rays.push_back(design_.between(a, b, psi));
}

}  // namespace lobewright::proof
