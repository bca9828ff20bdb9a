#include "proof/judge/helix_ridges.h"

#include "proof/judge/plane_verdict.h"

#include <lobewright/angle.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace lobewright::proof {
namespace {

/// Radians of turn on either side of a ray within which the cutter may touch on it.
constexpr double within = 1.2;
/// mm along the shaft: what the plane of a ridge is looked for to.
constexpr double plane_slack = 1e-5;

/// Rays that are followed lie this far apart at least, radians.
constexpr double ray_gap = full_turn / 360.0;
/// Planes that are judged for the deepest, and for the highest.
constexpr std::size_t planes_kept = 8;

/// A place that is deep or proud, by how far.
struct Candidate {
    double z = 0.0;
    double off = 0.0;  // mm along the normal; of the deepest, its negative
};

/// The farthest off so far, no two in one plane.
class Farthest {
  public:
    void take(const Candidate& candidate) {
        if (!may_take(candidate.off)) return;
        for (Candidate& each : kept_) {
            if (std::abs(each.z - candidate.z) > same_plane) continue;
            each.off = std::max(each.off, candidate.off);
            return sort();
        }
        kept_.push_back(candidate);
        sort();
        if (kept_.size() > planes_kept) kept_.pop_back();
    }
    [[nodiscard]] bool may_take(double off) const {
        return std::isfinite(off) && (kept_.size() < planes_kept || off > kept_.back().off);
    }
    [[nodiscard]] const std::vector<Candidate>& kept() const { return kept_; }

  private:
    static constexpr double same_plane = 1e-3;  // mm
    void sort() {
        std::stable_sort(kept_.begin(), kept_.end(),
                         [](const Candidate& a, const Candidate& b) { return a.off > b.off; });
    }
    std::vector<Candidate> kept_;
};

/// The cutter's way past one ray: the moves about it, and where along the shaft it stands as it faces the
/// ray.
struct Passage {
    double z = 0.0;
    std::vector<ShaftMove> moves;
};

/// Runs of moves that feed without a break, in one sense, of which some go along the shaft over the lobe.
std::vector<std::vector<ShaftMove>> runs_over(const ShaftMoves& moves, double stock, double low,
                                              double high) {
    std::vector<std::vector<ShaftMove>> runs;
    std::vector<ShaftMove> run;
    bool slides = false;
    const auto close = [&] {
        if (slides) runs.push_back(run);
        run.clear();
        slides = false;
    };
    for (int i = 0; i < moves.size(); ++i) {
        const ShaftMove move = moves[i];
        const bool turns_back = !run.empty() && move.turn() * run.back().turn() < 0.0;
        if (move.rapid || move.least_tip() >= stock || turns_back) close();
        if (move.rapid || move.least_tip() >= stock) continue;
        run.push_back(move);
        slides = slides || (move.from.z != move.to.z && move.first_z() <= high && move.last_z() >= low);
    }
    close();
    return runs;
}

/// What is left on the ray in the plane by the moves of a passage.
double left_by(const Passage& passage, const CutterPart& part, double stock, double z, double psi) {
    return PlaneSweep(passage.moves, part, z, stock).left_on(psi).radius;
}

/// Follows one ray along one run.
class RayFollower {
  public:
    RayFollower(const std::vector<ShaftMove>& run, const CutterPart& part, double stock, const DesignRay& ray)
        : run_(run), part_(part), stock_(stock), ray_(ray) {}

    /// Each passage's own plane, and the ridges between them.
    void follow(double low, double high, Farthest& deepest, Farthest& proudest) const {
        std::optional<Passage> last;
        const double sense = run_.back().to.facing >= run_.front().from.facing ? 1.0 : -1.0;
        const double from = sense * run_.front().from.facing, to = sense * run_.back().to.facing;
        const double first = sense * ray_.psi;
        const double turns = std::ceil((from - first) / full_turn);
        std::size_t at = 0;
        for (double facing = first + turns * full_turn; facing <= to; facing += full_turn) {
            Passage here = passage(sense, facing, at);
            if (here.z > low && here.z < high)
                deepest.take({here.z, -deviation_at(left_by(here, part_, stock_, here.z, ray_.psi))});
            if (last && std::abs(last->z - here.z) > plane_slack)
                look_between(*last, here, low, high, proudest);
            last = std::move(here);
        }
    }

  private:
    [[nodiscard]] double deviation_at(double left) const { return deviation({left, 0.0, 0}, ray_); }

    /// The ridge is no higher than what the one leaves that leaves more halfway: most need no closer look.
    void look_between(const Passage& a, const Passage& b, double low, double high, Farthest& proudest) const {
        const double middle = 0.5 * (a.z + b.z);
        const double most = std::max(left_by(a, part_, stock_, middle, ray_.psi),
                                     left_by(b, part_, stock_, middle, ray_.psi));
        if (!proudest.may_take(deviation_at(most))) return;
        const double z = std::clamp(ridge(a, b), low, high);
        const double left =
            std::min(left_by(a, part_, stock_, z, ray_.psi), left_by(b, part_, stock_, z, ray_.psi));
        proudest.take({z, deviation_at(left)});
    }

    /// `at`: the first move that may be about it; moved on.
    [[nodiscard]] Passage passage(double sense, double facing, std::size_t& at) const {
        while (at < run_.size() && sense * run_[at].to.facing < facing - within)
            ++at;
        Passage found;
        for (std::size_t i = at; i < run_.size() && sense * run_[i].from.facing <= facing + within; ++i) {
            const ShaftMove& move = run_[i];
            found.moves.push_back(move);
            const double turn = sense * move.turn(), gone = facing - sense * move.from.facing;
            if (gone < 0.0 || gone > turn) continue;
            found.z = turn > 0.0 ? move.from.z + (move.to.z - move.from.z) * gone / turn : move.from.z;
        }
        return found;
    }

    /// The plane in which both passages leave the same: between their own places each leaves more the further
    /// away it is.
    [[nodiscard]] double ridge(const Passage& a, const Passage& b) const {
        double near = a.z, far = b.z;
        const auto difference = [&](double z) {
            return left_by(a, part_, stock_, z, ray_.psi) - left_by(b, part_, stock_, z, ray_.psi);
        };
        double low = difference(near), high = difference(far);
        if (low >= 0.0) return near;
        if (high <= 0.0) return far;
        for (int i = 0; i < 40 && std::abs(far - near) > plane_slack; ++i) {
            const double share = std::isfinite(low) && std::isfinite(high) ? low / (low - high) : 0.5;
            const double z = near + (far - near) * std::clamp(share, 0.05, 0.95);
            const double here = difference(z);
            if (std::abs(here) < settled) return z;
            (here < 0.0 ? near : far) = z;
            (here < 0.0 ? low : high) = here;
        }
        return 0.5 * (near + far);
    }

    static constexpr double settled = 1e-6;  // mm
    const std::vector<ShaftMove>& run_;
    const CutterPart& part_;
    double stock_;
    const DesignRay& ray_;
};

}  // namespace

std::vector<double> planes_of_helix(const ShaftMoves& moves, const CutterPart& part, double stock,
                                    const LobePlanes& lobe) {
    const double low = lobe.lobe->z - 0.5 * lobe.lobe->width, high = lobe.lobe->z + 0.5 * lobe.lobe->width;
    Farthest deepest, proudest;
    for (const auto& run : runs_over(moves, stock, low, high)) {
        double last = -nowhere;
        for (const DesignRay& ray : lobe.rays) {
            if (ray.psi - last < ray_gap) continue;
            last = ray.psi;
            RayFollower(run, part, stock, ray).follow(low, high, deepest, proudest);
        }
    }
    std::vector<double> planes;
    for (const auto* found : {&deepest, &proudest}) {
        for (const Candidate& each : found->kept()) {
            if (each.z > low && each.z < high) planes.push_back(each.z);
        }
    }
    return planes;
}

}  // namespace lobewright::proof
