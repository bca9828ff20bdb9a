#include "inspect/fit/stray_readings.h"

#include "inspect/fit/robust_fit.h"

#include <lobewright/angle.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace lobewright::inspection {
namespace {

constexpr std::size_t each_side = 4;
constexpr double most_deviations = 6.0;
constexpr int most_passes = 4;
constexpr double least_deviation = 1e-4;  // mm: what is off by six of these is no slip of anyone's

/// The eight nearest round the ring that don't stand out themselves, ascending. Required: there are so many.
std::array<double, 2 * each_side> neighbours_of(const std::vector<double>& residuals,
                                                const std::vector<bool>& stray, std::size_t i) {
    const std::size_t n = residuals.size();
    std::array<double, 2 * each_side> around{};
    for (std::size_t side = 0; side < 2; ++side) {
        std::size_t at = i;
        for (std::size_t k = 0; k < each_side; ++k) {
            do
                at = (at + (side == 0 ? n - 1 : 1)) % n;
            while (stray[at]);
            around[2 * k + side] = residuals[at];
        }
    }
    std::sort(around.begin(), around.end());
    return around;
}

std::vector<bool> standing_out(const std::vector<double>& residuals, const std::vector<bool>& stray,
                               double deviation) {
    std::vector<bool> found(residuals.size());
    for (std::size_t i = 0; i < residuals.size(); ++i) {
        const auto around = neighbours_of(residuals, stray, i);
        const double low = around[2], high = around[around.size() - 3];
        const double allowed = most_deviations * deviation + 0.5 * (high - low);
        found[i] = residuals[i] < low - allowed || residuals[i] > high + allowed;
    }
    return found;
}

/// Lifts round a ring that are still in, by angle.
class LiftRing {
  public:
    LiftRing(const std::vector<double>& angles, const std::vector<double>& lifts,
             const std::vector<bool>& stray)
        : angles_(angles), lifts_(lifts) {
        for (std::size_t i = 0; i < stray.size(); ++i)
            if (!stray[i]) kept_.push_back(i);
    }
    [[nodiscard]] std::size_t size() const { return kept_.size(); }
    [[nodiscard]] std::size_t source(std::size_t k) const { return kept_[k]; }
    /// The lift at k less that of a cubic through two on either side.
    [[nodiscard]] double off_cubic(std::size_t k) const {
        return lift(k, 0) - cubic(k, angles_[kept_[k]], {-2, -1, 1, 2});
    }
    /// That cubic's lift at an angle between those before and after `source`, which is not among them.
    [[nodiscard]] double cubic_at(std::size_t source) const {
        const auto after = std::upper_bound(kept_.begin(), kept_.end(), source);
        const auto k = static_cast<std::size_t>(after - kept_.begin()) % kept_.size();
        return cubic(k, angles_[source], {-2, -1, 0, 1});
    }
    /// How much the bend changes beside k, without k's own lift, as a difference over the places' distance.
    [[nodiscard]] double change_of_bend(std::size_t k) const {
        double low = bend(k, -3), high = low;
        for (const int middle : {-2, 2, 3}) {
            const double here = bend(k, middle);
            low = std::min(low, here), high = std::max(high, here);
        }
        const double reach = 0.5 * (angle(k, 1) - angle(k, -1));
        return (high - low) * reach * reach;
    }

  private:
    /// Lagrange's polynomial through the lifts at those places on from k.
    [[nodiscard]] double cubic(std::size_t k, double where, const std::array<int, 4>& places) const {
        const double x = wrapped_radians(where - angles_[kept_[k]]);
        double sum = 0.0;
        for (const int i : places) {
            double part = lift(k, i);
            for (const int j : places)
                if (j != i) part *= (x - angle(k, j)) / (angle(k, i) - angle(k, j));
            sum += part;
        }
        return sum;
    }
    [[nodiscard]] std::size_t at(std::size_t k, int on) const {
        return kept_[(k + kept_.size() + static_cast<std::size_t>(on + most_on) - most_on) % kept_.size()];
    }
    [[nodiscard]] double lift(std::size_t k, int on) const { return lifts_[at(k, on)]; }
    /// From k's own.
    [[nodiscard]] double angle(std::size_t k, int on) const {
        return wrapped_radians(angles_[at(k, on)] - angles_[kept_[k]]);
    }
    [[nodiscard]] double bend(std::size_t k, int middle) const {
        const double a = angle(k, middle - 1), b = angle(k, middle), c = angle(k, middle + 1);
        const double before = (lift(k, middle) - lift(k, middle - 1)) / (b - a);
        const double after = (lift(k, middle + 1) - lift(k, middle)) / (c - b);
        return 2.0 * (after - before) / (c - a);
    }

    static constexpr int most_on = 4;
    const std::vector<double>& angles_;
    const std::vector<double>& lifts_;
    std::vector<std::size_t> kept_;
};

/// Sets aside those that stand out most among the two on either side; whether there are any.
bool set_worst_aside(const LiftRing& ring, double least, std::vector<bool>& stray) {
    std::vector<double> off;
    for (std::size_t k = 0; k < ring.size(); ++k)
        off.push_back(ring.off_cubic(k));
    const double deviation = std::max({least, least_deviation, robust_scale(off)});
    const std::size_t n = ring.size();
    bool any = false;
    for (std::size_t k = 0; k < n; ++k) {
        const double size = std::abs(off[k]);
        if (size <= most_deviations * deviation) continue;
        const bool worst = size >= std::abs(off[(k + 1) % n]) && size >= std::abs(off[(k + n - 1) % n]) &&
                           size >= std::abs(off[(k + 2) % n]) && size >= std::abs(off[(k + n - 2) % n]);
        if (!worst || size <= most_deviations * deviation + 0.5 * ring.change_of_bend(k)) continue;
        stray[ring.source(k)] = any = true;
    }
    return any;
}

}  // namespace

std::vector<bool> stray_lifts(const std::vector<double>& angles, const std::vector<double>& lifts,
                              double least) {
    constexpr std::size_t fewest = 12;
    constexpr int passes = 16;
    std::vector<bool> stray(lifts.size());
    for (int pass = 0; pass < passes; ++pass) {
        const LiftRing ring(angles, lifts, stray);
        if (ring.size() < fewest || !set_worst_aside(ring, least, stray)) break;
    }
    return stray;
}

std::vector<double> mended_lifts(const std::vector<double>& angles, const std::vector<double>& lifts,
                                 const std::vector<bool>& stray) {
    const LiftRing ring(angles, lifts, stray);
    std::vector<double> mended = lifts;
    for (std::size_t i = 0; i < stray.size(); ++i)
        if (stray[i]) mended[i] = ring.cubic_at(i);
    return mended;
}

double scatter_about_neighbours(const std::vector<double>& residuals) {
    const std::size_t n = residuals.size();
    if (n < 3) return 0.0;
    std::vector<double> off;
    for (std::size_t i = 0; i < n; ++i)
        off.push_back(residuals[i] - 0.5 * (residuals[(i + n - 1) % n] + residuals[(i + 1) % n]));
    return robust_scale(std::move(off)) / std::sqrt(1.5);  // the variance is that of one and of a half
}

std::vector<bool> stray_readings(const std::vector<double>& residuals, double least) {
    std::vector<bool> stray(residuals.size());
    if (residuals.size() < 2 * each_side + 1) return stray;
    const double deviation = std::max({least, least_deviation, scatter_about_neighbours(residuals)});
    // Again without those found, which hide one another where they stand close together.
    for (int pass = 0; pass < most_passes; ++pass) {
        std::vector<bool> last = std::exchange(stray, standing_out(residuals, stray, deviation));
        const auto kept = std::count(stray.begin(), stray.end(), false);
        if (stray == last) break;
        if (kept < static_cast<std::ptrdiff_t>(2 * each_side + 1)) return last;
    }
    return stray;
}

}  // namespace lobewright::inspection
