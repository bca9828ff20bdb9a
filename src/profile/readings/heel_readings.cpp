#include "profile/readings/heel_readings.h"

#include <lobewright/interval.h>

#include <algorithm>
#include <cmath>
#include <deque>
#include <functional>
#include <optional>

namespace lobewright::profile {
namespace {

constexpr double least_heel = 1.0 / 12.0;        // of the period: below that, the lift only touches zero
constexpr double least_uneven_heel = 1.0 / 6.0;  // of the period
constexpr double longest_foot = 1.0 / 24.0;      // of the period
constexpr std::size_t fewest_off_zero = 4;       // readings that agree on another level than zero

/// The longest run of readings for which `belongs` holds; ends that `ends` does not hold for are left off.
template <class Belongs, class Ends>
ReadingRun longest_run(const ReadingRing& ring, const Belongs& belongs, const Ends& ends) {
    const std::size_t count = ring.size();
    ReadingRun longest, run;
    double span = 0.0;
    for (std::size_t i = 0; i < 2 * count; ++i) {
        const double lift = ring[i].lift;
        if (!belongs(lift)) {
            run.count = 0;
            continue;
        }
        if (run.count > 0) span += ring.gap_before(i);
        if (!ends(lift)) continue;
        if (run.count == 0) run.first = i, span = 0.0;
        run.count = i - run.first + 1;
        run.span = span;
        if (run.count > count) break;  // all of the ring
        if (run.span > longest.span) longest = run;
    }
    return longest;
}

/// Least and greatest lift within a window that only moves on.
class WindowExtremes {
  public:
    explicit WindowExtremes(const ReadingRing& ring) : ring_(ring) {}
    void add(std::size_t i) {
        while (!low_.empty() && ring_[low_.back()].lift >= ring_[i].lift)
            low_.pop_back();
        while (!high_.empty() && ring_[high_.back()].lift <= ring_[i].lift)
            high_.pop_back();
        low_.push_back(i);
        high_.push_back(i);
    }
    void drop_before(std::size_t i) {
        while (low_.front() < i)
            low_.pop_front();
        while (high_.front() < i)
            high_.pop_front();
    }
    [[nodiscard]] double low() const { return ring_[low_.front()].lift; }
    [[nodiscard]] double high() const { return ring_[high_.front()].lift; }

  private:
    const ReadingRing& ring_;
    std::deque<std::size_t> low_, high_;
};

/// The longest run of readings that lie within `width` of each other, in the lower quarter of the lobe's
/// height.
ReadingRun longest_level_run(const ReadingRing& ring, double width) {
    const double highest_level = ring.lowest() + 0.25 * (ring.highest() - ring.lowest());
    WindowExtremes window(ring);
    ReadingRun longest, run;
    for (std::size_t i = 0; i < 2 * ring.size(); ++i) {
        window.add(i);
        if (run.count > 0) run.span += ring.gap_before(i);
        ++run.count;
        while (run.count > ring.size() || window.high() - window.low() > width + lift_rounding) {
            run.span -= run.count > 1 ? ring.gap_before(++run.first) : (++run.first, 0.0);
            --run.count;
            window.drop_before(run.first);
        }
        if (run.span <= longest.span || window.high() > highest_level) continue;
        longest = run;
        longest.low = window.low(), longest.high = window.high();
    }
    return longest;
}

/// Without the feet of the flanks, where the lift is hardly more than the readings' scatter: what stands off
/// zero there belongs to the flank.
ReadingRun without_feet(const ReadingRing& ring, ReadingRun run, const std::function<bool(double)>& quiet) {
    const double foot = longest_foot * ring.period();
    const std::size_t end = run.first + run.count;
    std::size_t first = run.first, last = end - 1;
    double way = 0.0;
    for (std::size_t i = run.first; i < end && way <= foot; way += ring.gap_before(++i)) {
        if (!quiet(ring[i].lift)) first = i + 1;
    }
    way = 0.0;
    for (std::size_t i = end - 1; i > run.first && way <= foot; way += ring.gap_before(i--)) {
        if (!quiet(ring[i].lift)) last = i - 1;
    }
    while (first < last && !quiet(ring[first].lift))
        ++first;
    while (last > first && !quiet(ring[last].lift))
        --last;
    if (last <= first) return {};
    for (std::size_t i = run.first; i < first; ++i)
        run.span -= ring.gap_before(i + 1);
    for (std::size_t i = last + 1; i < end; ++i)
        run.span -= ring.gap_before(i);
    run.first = first, run.count = last - first + 1;
    return run;
}

/// Readings about zero, a few of them off it.
Heel heel_about_zero(const ReadingRing& ring, double limit) {
    const double scatter = std::max(limit, most_scatter * ring.highest());
    const auto quiet = [limit](double lift) { return std::abs(lift) <= limit + lift_rounding; };
    const auto low = [scatter](double lift) { return std::abs(lift) <= scatter; };
    Heel heel;
    heel.run = longest_run(ring, low, quiet);
    if (heel.run.count < 2) return {};
    heel.run = without_feet(ring, heel.run, quiet);
    for (std::size_t i = heel.run.first; i < heel.run.first + heel.run.count; ++i) {
        const double lift = ring[i].lift;
        heel.run.low = std::min(heel.run.low, lift), heel.run.high = std::max(heel.run.high, lift);
        if (!quiet(lift)) heel.off.push_back(i % ring.size());
    }
    if (heel.run.span < least_heel * ring.period() || 2 * heel.off.size() > heel.run.count) return {};
    heel.state = heel.off.empty() ? Heel::State::at_zero : Heel::State::scattered;
    return heel;
}

/// A run that is wider than the readings scatter takes in the feet of the flanks, whose lift is not to count;
/// unless there are no other readings.
void note_levels_between_feet(const ReadingRing& ring, ReadingRun& run) {
    const double foot = longest_foot * ring.period();
    double way = 0.0;
    std::optional<Interval> levels;
    for (std::size_t i = run.first; i < run.first + run.count; way += ring.gap_before(++i)) {
        if (way < foot || way > run.span - foot) continue;
        const double lift = ring[i].lift;
        levels = levels ? Interval{std::min(levels->low, lift), std::max(levels->high, lift)}
                        : Interval{lift, lift};
    }
    if (levels) run.low = levels->low, run.high = levels->high;
}

/// Readings that agree about some lift, more or less; wider and wider by doubles, up to `most_scatter`.
Heel heel_about_any_level(const ReadingRing& ring, double limit) {
    Heel heel;
    heel.run = longest_level_run(ring, 2.0 * limit);
    if (heel.run.span >= least_heel * ring.period() && heel.run.count >= fewest_off_zero) {
        heel.state = Heel::State::off_zero;
        note_levels_between_feet(ring, heel.run);
        return heel;
    }
    const double widest = 2.0 * most_scatter * (ring.highest() - ring.lowest());
    for (double width = 4.0 * limit; width < 2.0 * widest; width *= 2.0) {
        heel.run = longest_level_run(ring, std::min(width, widest));
        if (heel.run.span < least_uneven_heel * ring.period() || heel.run.count < fewest_off_zero) continue;
        heel.state = Heel::State::uneven;
        note_levels_between_feet(ring, heel.run);
        return heel;
    }
    return {};
}

}  // namespace

Heel heel_of(const ReadingRing& ring, const ReadingLimits& limits) {
    if (Heel heel = heel_about_zero(ring, limits.limit); heel.state != Heel::State::none) return heel;
    return heel_about_any_level(ring, limits.limit);
}

}  // namespace lobewright::profile
