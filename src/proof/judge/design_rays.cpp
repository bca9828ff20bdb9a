#include "proof/judge/design_rays.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

constexpr double widest_gap = 2.0 * full_turn / 360.0;
/// The least relative curvature that spacing is worked out for, 1/mm.
constexpr double least_curvature = 1e-3;

}  // namespace

Design::Design(const SolvedLobe& lobe, double allowance)
    : contour_(lobe.contour), at_(lobe.at.radians()), base_radius_(lobe.base_radius), allowance_(allowance) {}

DesignRay Design::at(std::size_t piece, double t) const {
    const ContourPoint p = contour_.pieces()[piece].at(t);
    const Vec2 point = p.point + allowance_ * p.normal;
    DesignRay ray;
    ray.radius = length(point);
    const Vec2 e = point / ray.radius;
    ray.lean = dot(p.normal, e);
    ray.slope = -ray.radius * dot(p.normal, quarter_turn(e)) / ray.lean;
    ray.psi = at_ + direction(point);
    ray.curvature = p.curvature / (1.0 + allowance_ * p.curvature);
    ray.speed = p.speed * (1.0 + allowance_ * p.curvature);
    ray.piece = piece;
    ray.t = t;
    return ray;
}

bool Design::on_heel(const DesignRay& ray) const {
    constexpr double same_radius = 1e-7;  // mm
    return ray.radius <= base_radius_ + allowance_ + same_radius;
}

std::vector<DesignRay> Design::rays(double section_curvature, double hidden) const {
    std::vector<DesignRay> rays;
    const auto& pieces = contour_.pieces();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const double longest = 0.25 * (pieces[i].end - pieces[i].start);
        const auto step = [&](const DesignRay& ray) {
            const double bend = std::max(least_curvature, section_curvature + std::abs(ray.curvature));
            return std::min(std::sqrt(8.0 * hidden / bend), widest_gap * ray.radius) / ray.speed;
        };
        DesignRay ray = at(i, pieces[i].start);
        while (ray.t < pieces[i].end) {
            rays.push_back(ray);
            const double first_try = std::min(step(ray), longest);
            DesignRay next = at(i, std::min(ray.t + first_try, pieces[i].end));
            if (step(next) < first_try)
                next = at(i, std::min(ray.t + std::min(step(next), longest), pieces[i].end));
            ray = next;
        }
        rays.push_back(at(i, pieces[i].end));
    }
    for (std::size_t i = 1; i < rays.size(); ++i) {
        while (rays[i].psi < rays[i - 1].psi - 0.5 * full_turn)
            rays[i].psi += full_turn;
    }
    std::stable_sort(rays.begin(), rays.end(),
                     [](const DesignRay& a, const DesignRay& b) { return a.psi < b.psi; });
    return rays;
}

DesignRay Design::between(const DesignRay& before, const DesignRay& after, double psi) const {
    const double share = std::clamp((psi - before.psi) / (after.psi - before.psi), 0.0, 1.0);
    const bool same = before.piece == after.piece;
    const double end = same ? after.t : contour_.pieces()[before.piece].end;
    DesignRay ray = at(before.piece, before.t + share * (end - before.t));
    while (ray.psi < before.psi - 0.5 * full_turn)
        ray.psi += full_turn;
    while (ray.psi > before.psi + 0.5 * full_turn)
        ray.psi -= full_turn;
    return ray;
}

}  // namespace lobewright::proof
