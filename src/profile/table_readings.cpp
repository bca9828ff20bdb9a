#include "table_readings.h"

#include <lobewright/angle.h>
#include <lobewright/number_text.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lobewright {
namespace {

constexpr double same_angle = 1e-9;  // radians

constexpr double degrees(double radians) {
    return radians * 180.0 / std::numbers::pi;
}

/// The words and the limits of one table.
class Judge {
  public:
    Judge(const TableProfile& table, double period, Units units)
        : table_(table),
          period_(period),
          units_(units),
          quiet_(std::max(table.smoothing, table_resolution)) {}

    Outcome<OrderedReadings> order();

  private:
    void check_count();
    void check_range();
    void sort_round();
    void check_repeats();
    void check_lifts();
    void start_after_widest_gap();
    void begin_ring_at(std::size_t first);
    void check_outliers();
    void refuse_outlier(const OrderedReading& reading, double off);
    void check_ends();
    void find_event();

    [[nodiscard]] double gap_before(std::size_t i) const;
    [[nodiscard]] bool is_quiet(std::size_t i) const { return std::abs(ordered_[i].lift) <= quiet_; }
    [[nodiscard]] std::string in_units(double mm) const;
    void refuse(std::size_t source, std::string code, std::string what, std::string remedy);

    const TableProfile& table_;
    double period_;
    Units units_;
    double quiet_;  // a lift within this may be the base circle
    std::vector<OrderedReading> ordered_;
    OrderedReadings result_;
    Diagnostics complaints_;
};

std::string Judge::in_units(double mm) const {
    return shortest_fixed(mm / mm_per(units_), units_ == Units::mm ? 4 : 6) +
           (units_ == Units::mm ? " mm" : " in");
}

void Judge::refuse(std::size_t source, std::string code, std::string what, std::string remedy) {
    const Place place =
        source < table_.readings.size() ? table_.readings[source].place : Place{table_.file, 0, 0};
    complaints_.push_back(
        {Fault::bad_input, Severity::error, std::move(code), std::move(what), std::move(remedy), place});
}

void Judge::check_count() {
    constexpr std::size_t fewest = 12;
    const std::size_t count = table_.readings.size();
    if (count >= fewest) return;
    refuse(count == 0 ? 0 : count - 1, "table-too-short",
           "the table has only " + std::to_string(count) + (count == 1 ? " reading" : " readings"),
           "give at least " + std::to_string(fewest) + ", best one every degree or two");
}

void Judge::check_range() {
    const auto by_angle = [](const Reading& a, const Reading& b) { return a.cam_angle < b.cam_angle; };
    const auto [lowest, highest] =
        std::minmax_element(table_.readings.begin(), table_.readings.end(), by_angle);
    const double range = (highest->cam_angle - lowest->cam_angle).radians();
    if (range <= period_ + same_angle) return;
    refuse(static_cast<std::size_t>(std::max(lowest, highest) - table_.readings.begin()), "table-too-long",
           "the table's angles span " + shortest_fixed(degrees(range), 3) + " degrees, more than the " +
               shortest_fixed(degrees(period_), 3) + " from one lobe to the next",
           "keep one turn of them");
}

/// Ascending within one period. A last reading a whole period after the first is the same place on the lobe:
/// it is left out, and must agree.
void Judge::sort_round() {
    const auto& readings = table_.readings;
    double lowest = readings.front().cam_angle.radians();
    for (const Reading& r : readings)
        lowest = std::min(lowest, r.cam_angle.radians());
    std::size_t closing = readings.size();
    std::size_t opening = readings.size();
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const double from_lowest = readings[i].cam_angle.radians() - lowest;
        if (from_lowest <= same_angle) opening = i;
        if (from_lowest >= period_ - same_angle && closing == readings.size()) {
            closing = i;
            continue;
        }
        ordered_.push_back({readings[i].cam_angle.radians(), readings[i].lift, i});
    }
    const auto by_angle = [](const OrderedReading& a, const OrderedReading& b) { return a.angle < b.angle; };
    std::stable_sort(ordered_.begin(), ordered_.end(), by_angle);
    if (closing == readings.size()) return;
    const double step = readings[closing].lift - readings[opening].lift;
    if (std::abs(step) <= 2.0 * quiet_) {
        ordered_.front().lift = 0.5 * (readings[opening].lift + readings[closing].lift);
        return;
    }
    refuse(closing, "table-not-closed",
           "the table goes round the whole turn, but its ends differ by " + in_units(std::abs(step)),
           "mend the readings, or allow smoothing = " +
               shortest_fixed(0.5 * std::abs(step) / mm_per(units_) + 1e-6, 6) + " or more");
}

void Judge::check_repeats() {
    for (std::size_t i = 1; i < ordered_.size(); ++i) {
        if (ordered_[i].angle - ordered_[i - 1].angle > same_angle) continue;
        const std::size_t later = std::max(ordered_[i].source, ordered_[i - 1].source);
        const std::size_t earlier = std::min(ordered_[i].source, ordered_[i - 1].source);
        const int line = table_.readings[earlier].place.line;
        refuse(later, "table-angle-repeated",
               "cam angle " + shortest_fixed(degrees(ordered_[i].angle), 6) + " stands in the table twice" +
                   (line > 0 ? ", first in line " + std::to_string(line) : std::string()),
               "keep one of the two");
    }
}

void Judge::check_lifts() {
    for (const OrderedReading& r : ordered_) {
        if (r.lift >= -quiet_) continue;
        refuse(r.source, "table-lift-negative",
               "lift " + in_units(r.lift) + " lies below the base circle, by more than smoothing allows",
               "set the indicator's zero to the lowest reading, or mend this one");
    }
}

double Judge::gap_before(std::size_t i) const {
    return i > 0 ? ordered_[i].angle - ordered_[i - 1].angle
                 : ordered_.front().angle + period_ - ordered_.back().angle;
}

/// Turns the ring of readings so that the widest stretch without any lies between the last and the first.
void Judge::start_after_widest_gap() {
    std::size_t widest = 0;
    for (std::size_t i = 1; i < ordered_.size(); ++i) {
        if (gap_before(i) > gap_before(widest) + same_angle) widest = i;
    }
    begin_ring_at(widest);
}

void Judge::begin_ring_at(std::size_t first) {
    for (std::size_t i = 0; i < first; ++i)
        ordered_[i].angle += period_;
    std::rotate(ordered_.begin(), ordered_.begin() + static_cast<std::ptrdiff_t>(first), ordered_.end());
}

/// Lift at `at` of the cubic through four points.
double cubic_through(const OrderedReading* const (&points)[4], double at) {
    double lift = 0.0;
    for (const OrderedReading* p : points) {
        double weight = 1.0;
        for (const OrderedReading* q : points) {
            if (q != p) weight *= (at - q->angle) / (p->angle - q->angle);
        }
        lift += weight * p->lift;
    }
    return lift;
}

/// How far ring[i] lies off the cubic through its two nearest neighbours on each side, those in [from, to)
/// left out.
double off_neighbours(const std::vector<OrderedReading>& ring, std::size_t i, std::size_t from,
                      std::size_t to) {
    const OrderedReading* points[4] = {};
    int found = 0;
    for (std::size_t j = i; found < 2;) {
        if (--j < from || j >= to) points[found++] = &ring[j];
    }
    for (std::size_t j = i; found < 4;) {
        if (++j < from || j >= to) points[found++] = &ring[j];
    }
    return ring[i].lift - cubic_through(points, ring[i].angle);
}

/// How the readings [from, to) of the ring stand to their neighbours.
struct Standing {
    double off = 0.0;      // the least that one of them lies off the curve through the others
    double scatter = 0.0;  // the most that a neighbour does, with these left out
};

Standing standing_of(const std::vector<OrderedReading>& ring, std::size_t from, std::size_t to) {
    constexpr std::size_t reach = 3;  // neighbours on either side that are heard
    Standing standing;
    standing.off = std::abs(off_neighbours(ring, from, from, to));
    for (std::size_t i = from + 1; i < to; ++i) {
        standing.off = std::min(standing.off, std::abs(off_neighbours(ring, i, from, to)));
    }
    for (std::size_t k = 1; k <= reach; ++k) {
        for (const std::size_t neighbour : {from - k, to - 1 + k}) {
            standing.scatter =
                std::max(standing.scatter, std::abs(off_neighbours(ring, neighbour, from, to)));
        }
    }
    return standing;
}

/// An outlier is a reading, or two side by side, far off the curve through the neighbours, while the
/// neighbours, with these left out, agree among themselves. A step in the acceleration is none: there the
/// neighbours differ too.
void Judge::check_outliers() {
    constexpr double times_scatter = 8.0;
    constexpr std::size_t margin = 8;  // readings of the turns before and behind
    const std::size_t count = ordered_.size();
    double highest = 0.0;
    std::vector<OrderedReading> ring;
    for (std::size_t i = 0; i < count + 2 * margin; ++i) {
        OrderedReading r = ordered_[(i + count - margin) % count];
        r.angle += i < margin ? -period_ : (i >= count + margin ? period_ : 0.0);
        highest = std::max(highest, r.lift);
        ring.push_back(r);
    }
    const double least = std::max(4.0 * quiet_, highest / 2000.0);
    for (std::size_t i = margin; i < count + margin; ++i) {
        for (const std::size_t end : {i + 1, i + 2}) {
            const Standing standing = standing_of(ring, i, end);
            if (standing.off <= std::max(least, times_scatter * standing.scatter)) continue;
            for (std::size_t j = i; j < end; ++j)
                refuse_outlier(ring[j], off_neighbours(ring, j, i, end));
            i = end;
            break;
        }
    }
}

void Judge::refuse_outlier(const OrderedReading& reading, double off) {
    if (reading.lift < -quiet_) return;  // refused for that already
    refuse(reading.source, "table-outlier",
           "lift " + in_units(reading.lift) + " lies " + in_units(std::abs(off)) +
               (off > 0 ? " above" : " below") + " the curve of its neighbours",
           "measure it again, or strike it out; its neighbours say " + in_units(reading.lift - off));
}

/// A table that does not go round the whole period begins and ends at zero lift.
void Judge::check_ends() {
    const std::size_t count = ordered_.size();
    double second_widest = 0.0;
    for (std::size_t i = 1; i < count; ++i)
        second_widest = std::max(second_widest, gap_before(i));
    const bool goes_round = gap_before(0) <= 3.0 * second_widest;
    if (goes_round) return;
    for (const std::size_t end : {std::size_t{0}, count - 1}) {
        if (is_quiet(end)) continue;
        refuse(ordered_[end].source, "table-not-closed",
               std::string("the table ") + (end == 0 ? "begins" : "ends") + " at lift " +
                   in_units(ordered_[end].lift) + ", off the base circle",
               "go on measuring until the lift is zero, or round the whole turn");
    }
}

/// The event is what lies outside the longest run of readings at zero lift, the widest gap within it.
void Judge::find_event() {
    const std::size_t count = ordered_.size();
    double longest = 0.0;
    std::size_t run_start = 0, run_end = 0;  // run_end may pass count
    for (std::size_t i = 0; i < count; ++i) {
        if (!is_quiet(i)) continue;
        std::size_t j = i;
        double span = 0.0;
        while (j + 1 < i + count && is_quiet((j + 1) % count))
            span += gap_before(++j % count);
        if (span > longest) longest = span, run_start = i, run_end = j;
    }
    constexpr double least_base_circle = 1.0 / 12.0;  // of the period: below that, the lift only touches zero
    result_.base_circle = longest >= least_base_circle * period_;
    result_.first = 0, result_.last = count - 1;
    if (result_.base_circle) {
        begin_ring_at(run_end % count);
        result_.first = 1, result_.last = count - 1 - (run_end - run_start);
    }
    constexpr std::size_t fewest_off_base = 7;
    const std::size_t off_base = result_.last >= result_.first ? result_.last - result_.first + 1 : 0;
    if (off_base >= fewest_off_base) return;
    const auto lower = [](const OrderedReading& a, const OrderedReading& b) { return a.lift < b.lift; };
    refuse(std::max_element(ordered_.begin(), ordered_.end(), lower)->source, "table-too-short",
           "only " + std::to_string(off_base) + (off_base == 1 ? " reading lies" : " readings lie") +
               " off the base circle",
           "measure in smaller steps, best one every degree or two");
}

Outcome<OrderedReadings> Judge::order() {
    check_count();
    if (!complaints_.empty()) return complaints_;
    check_range();
    if (!complaints_.empty()) return complaints_;
    sort_round();
    check_repeats();
    if (!complaints_.empty()) return complaints_;
    check_lifts();
    start_after_widest_gap();
    check_outliers();
    check_ends();
    if (!complaints_.empty()) return complaints_;
    find_event();
    if (!complaints_.empty()) return complaints_;
    result_.readings = std::move(ordered_);
    return std::move(result_);
}

}  // namespace

Outcome<OrderedReadings> order_readings(const TableProfile& table, double period, Units units) {
    return Judge(table, period, units).order();
}

}  // namespace lobewright
