#include "profile/readings/table_readings.h"

#include "profile/readings/reading_outliers.h"
#include "profile/readings/table_complaints.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

/// Puts one table in order, and complains.
class Ordering {
  public:
    Ordering(const TableProfile& table, double period, Units units)
        : table_(table),
          period_(period),
          limits_(reading_limits(table)),
          complaints_(table, units, limits_) {}

    Outcome<OrderedReadings> order();

  private:
    void check_count();
    void check_range();
    [[nodiscard]] std::vector<OrderedReading> ascending();
    void check_closing(OrderedReading& opening, const OrderedReading& closing);
    void check_repeats();
    void start_after_widest_gap();
    void check_heel();
    void check_gaps();
    void check_gap(std::size_t after);
    void check_below();
    void check_outliers();
    void check_scatter();
    void find_event();

    [[nodiscard]] bool is_quiet(std::size_t i) const {
        return std::abs(ring_[i].lift) <= limits_.limit + lift_rounding;
    }
    [[nodiscard]] bool is_below(std::size_t i) const {
        return ring_[i].lift < -limits_.limit - lift_rounding;
    }
    [[nodiscard]] bool is_far_below(std::size_t i) const {
        return is_below(i) && ring_[i].lift < -most_scatter * ring_.highest();
    }
    [[nodiscard]] bool on_heel(std::size_t i) const {
        return heel_.state != Heel::State::none && heel_.run.holds(i % ring_.size(), ring_.size());
    }

    const TableProfile& table_;
    double period_;
    ReadingLimits limits_;
    TableComplaints complaints_;
    ReadingRing ring_;
    Heel heel_;
    OrderedReadings result_;
};

void Ordering::check_count() {
    constexpr std::size_t fewest = 12;
    if (table_.readings.size() < fewest) return complaints_.too_few(fewest);
    const auto by_lift = [](const Reading& a, const Reading& b) { return a.lift < b.lift; };
    const auto [lowest, highest] =
        std::minmax_element(table_.readings.begin(), table_.readings.end(), by_lift);
    if (highest->lift - lowest->lift <= table_resolution) complaints_.no_lift();
}

void Ordering::check_range() {
    const auto by_angle = [](const Reading& a, const Reading& b) { return a.cam_angle < b.cam_angle; };
    const auto [lowest, highest] =
        std::minmax_element(table_.readings.begin(), table_.readings.end(), by_angle);
    const double range = (highest->cam_angle - lowest->cam_angle).radians();
    if (range <= period_ + same_angle) return;
    complaints_.too_long(static_cast<std::size_t>(std::max(lowest, highest) - table_.readings.begin()), range,
                         period_);
}

/// Ascending within one period. A last reading a whole period after the first is the same place on the lobe:
/// it is left out, and must agree.
std::vector<OrderedReading> Ordering::ascending() {
    std::vector<OrderedReading> all;
    all.reserve(table_.readings.size());
    for (const Reading& r : table_.readings)
        all.push_back({r.cam_angle.radians(), r.lift, all.size()});
    std::stable_sort(all.begin(), all.end(),
                     [](const OrderedReading& a, const OrderedReading& b) { return a.angle < b.angle; });
    if (all.back().angle - all.front().angle < period_ - same_angle) return all;
    check_closing(all.front(), all.back());
    all.pop_back();
    return all;
}

void Ordering::check_closing(OrderedReading& opening, const OrderedReading& closing) {
    const double step = closing.lift - opening.lift;
    if (std::abs(step) <= 2.0 * limits_.limit + lift_rounding) {
        opening.lift = 0.5 * (opening.lift + closing.lift);
    } else {
        complaints_.not_closed(closing.source, step);
    }
}

void Ordering::check_repeats() {
    for (std::size_t i = 0; i < ring_.size(); ++i) {
        if (ring_.gap_before(i) > same_angle) continue;
        complaints_.repeated(ring_[i > 0 ? i - 1 : ring_.size() - 1], ring_[i]);
    }
}

/// Turns the ring of readings so that the widest stretch without any lies between the last and the first.
void Ordering::start_after_widest_gap() {
    std::size_t widest = 0;
    for (std::size_t i = 1; i < ring_.size(); ++i) {
        if (ring_.gap_before(i) > ring_.gap_before(widest) + same_angle) widest = i;
    }
    ring_.begin_at(widest);
}

void Ordering::check_heel() {
    heel_ = heel_of(ring_, limits_);
    if (heel_.state == Heel::State::off_zero) complaints_.heel_off_zero(ring_, heel_);
    if (heel_.state == Heel::State::uneven) complaints_.heel_uneven(ring_, heel_);
}

/// Off the base circle a gap is a hole where it is wider than a sixtieth of the period, and than three of
/// nearly all others.
void Ordering::check_gaps() {
    std::vector<double> gaps;
    for (std::size_t i = 0; i < ring_.size(); ++i) {
        if (!(on_heel(i) && on_heel(i + ring_.size() - 1))) gaps.push_back(ring_.gap_before(i));
    }
    if (gaps.empty()) return;
    const auto ninth_tenth = gaps.begin() + static_cast<std::ptrdiff_t>(9 * (gaps.size() - 1) / 10);
    std::nth_element(gaps.begin(), ninth_tenth, gaps.end());
    const double widest = std::max(3.0 * *ninth_tenth, period_ / 60.0);
    for (std::size_t i = 0; i < ring_.size(); ++i) {
        if (ring_.gap_before(i) > widest && !(on_heel(i) && on_heel(i + ring_.size() - 1))) check_gap(i);
    }
}

/// A hole with the base circle at one end, or in a table that shows none, is where the measuring ended, if it
/// is wide.
void Ordering::check_gap(std::size_t after) {
    const std::size_t before = after + ring_.size() - 1;
    const bool both_off = !is_quiet(before) && !is_quiet(after);
    const bool may_be_the_end = !both_off || heel_.state == Heel::State::none;
    if (ring_.gap_before(after) <= 0.25 * period_ || !may_be_the_end)
        return complaints_.missing_between(ring_[before], ring_[after], ring_.gap_before(after));
    if (!is_quiet(after)) complaints_.begins_off_heel(ring_[after]);
    if (!is_quiet(before)) complaints_.ends_off_heel(ring_[before]);
}

void Ordering::check_outliers() {
    constexpr double part_of_height = 1.0 / 2000.0;
    const double least = std::max(4.0 * limits_.limit, part_of_height * ring_.highest());
    for (const Outlier& outlier : outliers_of(ring_, least)) {
        const OrderedReading& reading = ring_[outlier.index];
        if (is_below(outlier.index)) continue;
        complaints_.outlier(reading, outlier.off);
        std::erase(heel_.off, outlier.index);
    }
}

/// Readings below zero by more than the base circle's scatter can be, each.
void Ordering::check_below() {
    for (std::size_t i = 0; i < ring_.size(); ++i) {
        if (is_far_below(i)) complaints_.below_heel(ring_[i]);
    }
}

/// Of those that scatter about zero on the base circle, or below zero anywhere, the worst.
void Ordering::check_scatter() {
    std::vector<std::size_t> off;
    for (const std::size_t i : heel_.off) {
        if (!is_below(i)) off.push_back(i);
    }
    for (std::size_t i = 0; i < ring_.size(); ++i) {
        if (is_below(i) && !is_far_below(i)) off.push_back(i);
    }
    if (off.empty()) return;
    const auto nearer = [this](std::size_t a, std::size_t b) {
        return std::abs(ring_[a].lift) < std::abs(ring_[b].lift);
    };
    complaints_.heel_scattered(ring_[*std::max_element(off.begin(), off.end(), nearer)], off.size());
}

/// The event is what lies outside the base circle, the widest gap within it.
void Ordering::find_event() {
    const std::size_t count = ring_.size();
    result_.base_circle = heel_.state == Heel::State::at_zero;
    result_.first = 0, result_.last = count - 1;
    if (result_.base_circle) {
        ring_.begin_at((heel_.run.first + heel_.run.count - 1) % count);
        result_.first = 1, result_.last = count - heel_.run.count;
    }
    constexpr std::size_t fewest_off_base = 7;
    const std::size_t off_base = result_.last >= result_.first ? result_.last - result_.first + 1 : 0;
    if (off_base < fewest_off_base) complaints_.too_few_off_heel(ring_[ring_.highest_at()], off_base);
}

Outcome<OrderedReadings> Ordering::order() {
    const auto refused = [this] { return !complaints_.empty(); };
    check_count();
    if (refused()) return complaints_.all();
    check_range();
    if (refused()) return complaints_.all();
    ring_ = ReadingRing(ascending(), period_);
    check_repeats();
    if (refused()) return complaints_.all();
    start_after_widest_gap();
    check_heel();
    if (refused()) return complaints_.all();
    check_gaps();
    if (refused()) return complaints_.all();
    check_below();
    check_outliers();
    check_scatter();
    if (refused()) return complaints_.all();
    find_event();
    if (refused()) return complaints_.all();
    result_.ring = std::move(ring_);
    result_.limits = limits_;
    return std::move(result_);
}

}  // namespace

Outcome<OrderedReadings> order_readings(const TableProfile& table, double period, Units units) {
    return Ordering(table, period, units).order();
}

}  // namespace lobewright::profile
