#include "proof/plane_verdict.h"

#include <lobewright/angle.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

namespace lobewright::proof {
namespace {

/// Rays nearer to each other than this are one, radians.
constexpr double same_ray = 1e-7;
constexpr int most_halvings = 40;
/// Rays that share a window: the more, the more seldom windows are made and the more each holds.
constexpr std::size_t rays_a_window = 32;
/// Some 20 MB of rays.
constexpr std::size_t stretches_a_sector = 50000;

/// Finds the design's ray before a direction, through a table of equal sectors.
class RayFinder {
  public:
    explicit RayFinder(const std::vector<DesignRay>& rays) : rays_(rays), first_(sectors + 1, 0) {
        const double start = rays.front().psi;
        std::size_t ray = 0;
        for (std::size_t i = 0; i <= sectors; ++i) {
            const double psi = start + full_turn * static_cast<double>(i) / sectors;
            while (ray + 2 < rays.size() && rays[ray + 1].psi <= psi)
                ++ray;
            first_[i] = ray;
        }
    }

    /// The same direction, within the turn that the rays cover.
    [[nodiscard]] double in_turn(double psi) const {
        const double start = rays_.front().psi;
        const double rest = std::fmod(psi - start, full_turn);
        return start + (rest < 0.0 ? rest + full_turn : rest);
    }
    /// Index of the ray at or before `psi`, which lies within the turn; never the last.
    [[nodiscard]] std::size_t before(double psi) const {
        const double share = (psi - rays_.front().psi) / full_turn;
        std::size_t ray = first_[std::min<std::size_t>(sectors, static_cast<std::size_t>(share * sectors))];
        while (ray + 2 < rays_.size() && rays_[ray + 1].psi <= psi)
            ++ray;
        return ray;
    }

  private:
    static constexpr std::size_t sectors = 1024;
    const std::vector<DesignRay>& rays_;
    std::vector<std::size_t> first_;
};

struct Compared {
    DesignRay ray;
    Left left;
    double off = 0.0;    // mm along the normal
    double slope = 0.0;  // of it, mm per radian
};

class PlaneJudge {
  public:
    PlaneJudge(const PlaneSweep& sweep, const Design& design, const std::vector<DesignRay>& rays,
               double tolerance, MoveMarks& finishes)
        : sweep_(sweep),
          design_(design),
          fixed_(rays),
          finder_(rays),
          near_(0.02 + 2.0 * tolerance),
          finishes_(finishes) {}

    /// Sector by sector, so that the rays of a long program needn't all stand in memory.
    PlaneVerdict judge() {
        const std::size_t gaps = fixed_.size() - 1;
        const std::size_t sectors = 1 + sweep_.stretches().size() / stretches_a_sector;
        for (std::size_t i = 0; i < sectors; ++i)
            walk({i * gaps / sectors, (i + 1) * gaps / sectors});
        for (const auto& [a, b] : open_)
            refine(a, b, most_halvings);
        return verdict_;
    }

  private:
    /// Gaps between neighbouring fixed rays, by the index of the ray before.
    struct Sector {
        std::size_t begin, end;
    };

    /// All rays of a sector in order, and of the last one the ray that closes it.
    std::vector<DesignRay> rays_of(Sector sector) const {
        const bool last = sector.end + 1 == fixed_.size();
        std::vector<DesignRay> rays(
            fixed_.begin() + static_cast<std::ptrdiff_t>(sector.begin),
            fixed_.begin() + static_cast<std::ptrdiff_t>(sector.end + (last ? 1 : 0)));
        add_rays_of_stretches(sector, rays);
        std::sort(rays.begin(), rays.end(), [](const DesignRay& a, const DesignRay& b) {
            return std::tie(a.psi, a.piece, a.t) < std::tie(b.psi, b.piece, b.t);
        });
        return rays;
    }

    /// In windows of rays that share the stretches that may cut there.
    void walk(Sector sector) {
        const std::vector<DesignRay> rays = rays_of(sector);
        for (std::size_t begin = 0, end = 0; begin < rays.size(); begin = end) {
            while (end < rays.size() && end < begin + rays_a_window &&
                   PlaneSweep::sector_of(rays[end].psi) == PlaneSweep::sector_of(rays[begin].psi))
                ++end;
            const PlaneSweep::Window window =
                sweep_.window(rays[begin].psi, rays[end - 1].psi, last_ ? last_->left : Left{});
            for (std::size_t i = begin; i < end; ++i)
                walk_to(rays[i], window);
        }
    }

    void walk_to(const DesignRay& ray, const PlaneSweep::Window& window) {
        if (last_ && ray.psi - last_->ray.psi < same_ray && ray.piece == last_->ray.piece) return;
        const Left left = sweep_.left_on(ray.psi, last_ ? last_->left.stretch : -1, window);
        const Compared here = compared(ray, left);
        ++verdict_.rays;
        take(here);
        if (last_ && foretold_beyond(*last_, here)) open_.emplace_back(*last_, here);
        last_ = here;
    }

    static Compared compared(const DesignRay& ray, const Left& left) {
        return {ray, left, deviation(left, ray), (left.slope - ray.slope) * ray.lean};
    }

    void take(const Compared& c) {
        const int move =
            c.left.stretch < 0 ? -1 : sweep_.stretches()[static_cast<std::size_t>(c.left.stretch)].move;
        verdict_.cut |= move >= 0;
        if (move >= 0 && std::abs(c.off) <= near_) finishes_.mark(move);
        const PlaneExtreme extreme{c.off, c.ray.psi, move};
        if (!started_ || c.off < verdict_.deepest.along_normal) verdict_.deepest = extreme;
        if (!started_ || c.off > verdict_.proudest.along_normal) verdict_.proudest = extreme;
        started_ = true;
        if (!design_.on_heel(c.ray)) return;
        verdict_.heel.least = std::min(verdict_.heel.least, c.off);
        verdict_.heel.greatest = std::max(verdict_.heel.greatest, c.off);
    }

    /// How far a foretold deviation lies beyond the extremes so far, of the whole plane and of the heel.
    [[nodiscard]] double beyond(double foretold, bool on_heel) const {
        const double outside =
            std::max(foretold - verdict_.proudest.along_normal, verdict_.deepest.along_normal - foretold);
        if (!on_heel) return outside;
        return std::max({outside, foretold - verdict_.heel.greatest, verdict_.heel.least - foretold});
    }

    /// Where the tangents of two neighbours cross.
    struct Crossing {
        double share = 0.0;   // of the way from a to b
        double beyond = 0.0;  // mm beyond the extremes so far
    };

    /// Nothing where no ray between the two can lie beyond the extremes so far, which only widen.
    [[nodiscard]] std::optional<Crossing> foretold_beyond(const Compared& a, const Compared& b) const {
        const double gap = b.ray.psi - a.ray.psi;
        const double turn = a.slope - b.slope;
        if (gap < same_ray || turn == 0.0 || !std::isfinite(turn)) return std::nullopt;
        const double share = ((b.off - a.off) / gap - b.slope) / turn;
        if (share <= 0.0 || share >= 1.0) return std::nullopt;
        const double foretold = a.off + a.slope * share * gap;
        const double off = beyond(foretold, design_.on_heel(a.ray) && design_.on_heel(b.ray));
        return off > hidden_extreme ? std::optional(Crossing{share, off}) : std::nullopt;
    }

    /// Splits while the tangents' crossing lies beyond the extremes so far.
    void refine(const Compared& a, const Compared& b, int halvings) {
        const auto crossing = foretold_beyond(a, b);
        if (!crossing) return;
        if (halvings == 0) {
            verdict_.missed = std::max(verdict_.missed, crossing->beyond);
            return;
        }
        const double psi = a.ray.psi + std::clamp(crossing->share, 0.05, 0.95) * (b.ray.psi - a.ray.psi);
        const DesignRay ray = design_.between(a.ray, b.ray, psi);
        const Compared middle = compared(ray, sweep_.left_on(ray.psi, a.left.stretch));
        ++verdict_.rays;
        take(middle);
        if (middle.ray.psi <= a.ray.psi || middle.ray.psi >= b.ray.psi) return;
        refine(a, middle, halvings - 1);
        refine(middle, b, halvings - 1);
    }

    void add_rays_of_stretches(Sector sector, std::vector<DesignRay>& rays) const {
        for (const Stretch& stretch : sweep_.stretches()) {
            const Section& section = sweep_.section(stretch);
            if (stretch.span > 0.0) {
                add_ray_through(trace_point(section, stretch, 0.0), sector, rays);
                add_ray_through(trace_point(section, stretch, stretch.span), sector, rays);
            }
            if (section.half_flat > 0.0 || section.off_axis_corner())
                add_corner_rays(section, stretch, sector, rays);
        }
    }

    void add_corner_rays(const Section& section, const Stretch& stretch, Sector sector,
                         std::vector<DesignRay>& rays) const {
        const Vec2 to = stretch.to();
        for (const int side : {-1, 1}) {
            const double along = section.shift + side * section.half_flat;
            add_ray_through(stretch.low * stretch.from + along * quarter_turn(stretch.from), sector, rays);
            add_ray_through(stretch.low_at_end() * to + along * quarter_turn(to), sector, rays);
        }
    }

    /// Only for points near the design, or below it.
    void add_ray_through(Vec2 point, Sector sector, std::vector<DesignRay>& rays) const {
        const double psi = finder_.in_turn(direction(point));
        const std::size_t index = finder_.before(psi);
        if (index < sector.begin || index >= sector.end) return;
        const DesignRay &a = fixed_[index], &b = fixed_[index + 1];
        const double share = b.psi > a.psi ? std::clamp((psi - a.psi) / (b.psi - a.psi), 0.0, 1.0) : 0.0;
        if (length(point) > a.radius + share * (b.radius - a.radius) + near_) return;
        if (psi - a.psi > same_ray && b.psi - psi > same_ray) rays.push_back(design_.between(a, b, psi));
    }

    const PlaneSweep& sweep_;
    const Design& design_;
    const std::vector<DesignRay>& fixed_;
    RayFinder finder_;
    double near_;
    MoveMarks& finishes_;
    PlaneVerdict verdict_;
    bool started_ = false;
    std::optional<Compared> last_;
    std::vector<std::pair<Compared, Compared>> open_;  // neighbours with a place beyond between them
};

}  // namespace

double deviation(const Left& left, const DesignRay& ray) {
    return (left.radius - ray.radius) * ray.lean;
}

PlaneVerdict judge_plane(const PlaneSweep& sweep, const Design& design, const std::vector<DesignRay>& rays,
                         double tolerance, MoveMarks& finishes) {
    return PlaneJudge(sweep, design, rays, tolerance, finishes).judge();
}

}  // namespace lobewright::proof
