#include "proof/judge/plane_verdict.h"

#include "proof/judge/plane_rays.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace lobewright::proof {
namespace {

constexpr int most_halvings = 40;
/// Rays that share a window: the more, the more seldom windows are made and the more each holds.
constexpr std::size_t rays_a_window = 8;
/// What a move leaves nearer to the design than this beyond twice the tolerance finishes it, mm.
constexpr double near_design = 0.02;

struct Compared {
    DesignRay ray;
    Left left;
    double off = 0.0;    // mm along the normal
    double slope = 0.0;  // of it, mm per radian
};

class PlaneJudge {
  public:
    PlaneJudge(const PlaneSweep& sweep, const Design& design, const std::vector<DesignRay>& rays,
               double tolerance, MoveMarks& finishes, SurfaceAround& around)
        : sweep_(sweep),
          design_(design),
          near_(near_design + 2.0 * tolerance),
          rays_(sweep, design, rays, near_),
          finishes_(finishes),
          around_(around) {}

    PlaneVerdict judge() {
        for (std::size_t i = 0; i < rays_.parts(); ++i)
            walk(rays_.part(i));
        for (const auto& [a, b] : open_)
            refine(a, b, most_halvings);
        return verdict_;
    }

  private:
    /// In windows of rays that share the steps that may cut there.
    void walk(const std::vector<DesignRay>& rays) {
        for (std::size_t begin = 0, end = 0; begin < rays.size(); begin = end) {
            while (end < rays.size() && end < begin + rays_a_window &&
                   sector_of(rays[end].psi) == sector_of(rays[begin].psi))
                ++end;
            const PlaneSweep::Window window =
                sweep_.window(rays[begin].psi, rays[end - 1].psi, last_ ? last_->left : Left{});
            for (std::size_t i = begin; i < end; ++i)
                walk_to(rays[i], window);
        }
    }

    void walk_to(const DesignRay& ray, const PlaneSweep::Window& window) {
        if (last_ && ray.psi - last_->ray.psi < same_ray && ray.piece == last_->ray.piece) return;
        const Left left = sweep_.left_on(ray.psi, last_ ? last_->left.step : -1, window);
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
        const int move = c.left.step < 0 ? -1 : sweep_.steps()[static_cast<std::size_t>(c.left.step)].move;
        verdict_.cut |= move >= 0;
        if (move >= 0 && std::abs(c.off) <= near_) finishes_.mark(move);
        around_.take(c.ray.psi, c.off, move);
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
        const Compared middle = compared(ray, sweep_.left_on(ray.psi, a.left.step));
        ++verdict_.rays;
        take(middle);
        if (middle.ray.psi <= a.ray.psi || middle.ray.psi >= b.ray.psi) return;
        refine(a, middle, halvings - 1);
        refine(middle, b, halvings - 1);
    }

    const PlaneSweep& sweep_;
    const Design& design_;
    double near_;
    PlaneRays rays_;
    MoveMarks& finishes_;
    SurfaceAround& around_;
    PlaneVerdict verdict_;
    bool started_ = false;
    std::optional<Compared> last_;
    std::vector<std::pair<Compared, Compared>> open_;  // neighbours with a place beyond between them
};

}  // namespace

double deviation(const Left& left, const DesignRay& ray) {
    const double over = left.radius - ray.radius;
    // Past half of the way to its centre the circle tells nothing any more: from there on along the normal.
    const double farthest = ray.curvature == 0.0 ? nowhere : 0.5 * ray.lean / std::abs(ray.curvature);
    const double near = ray.curvature * over < 0.0 ? std::clamp(over, -farthest, farthest) : over;
    const double bent = near * (2.0 * ray.lean + ray.curvature * near);
    return bent / (1.0 + std::sqrt(1.0 + ray.curvature * bent)) + (over - near) * ray.lean;
}

PlaneVerdict judge_plane(const PlaneSweep& sweep, const Design& design, const std::vector<DesignRay>& rays,
                         double tolerance, MoveMarks& finishes, SurfaceAround& around) {
    return PlaneJudge(sweep, design, rays, tolerance, finishes, around).judge();
}

}  // namespace lobewright::proof
