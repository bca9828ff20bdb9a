#include "proof/sweep/plane_sweep.h"

#include "base/whole_steps.h"
#include "proof/sweep/sectors.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace lobewright::proof {
namespace {

/// Of a sector's width: a turn that is longer by less than this is no part more.
constexpr double rounding_of_parts = 1e-9;

double between(double a, double b, double share) {
    return a + (b - a) * share;
}

/// A move of many turns comes to every ray lowest in the turns next to its lower end: two of them are enough.
void keep_lowest_turns(double& facing0, double& low0, double& facing1, double& low1) {
    const double turns = (facing1 - facing0) / full_turn;
    if (turns <= 2.0) return;
    if (low0 < low1) {
        low1 = between(low0, low1, 2.0 / turns);
        facing1 = facing0 + 2.0 * full_turn;
    } else {
        low0 = between(low1, low0, 2.0 / turns);
        facing0 = facing1 - 2.0 * full_turn;
    }
}

/// A motion in whole numbers: equal for moves that only lie whole turns apart, whose radians differ by
/// roundings (1e-11 after some thousand turns).
using Motion = std::array<long long, 5>;

Motion motion_of(const SweepStep& step, double raise) {
    constexpr double of_angle = 1e9, of_height = 1e9, of_slope = 1e6;
    return {nearest_step(step.from.x * of_angle), nearest_step(step.from.y * of_angle),
            nearest_step(step.span * of_angle), nearest_step((step.low - raise) * of_height),
            nearest_step(step.slope * of_slope)};
}

/// By least height; the rest only makes one order of it.
bool lower(const SweepStep& a, const SweepStep& b) {
    const double low_a = a.least_low(), low_b = b.least_low();
    if (low_a != low_b) return low_a < low_b;
    return std::tie(a.move, a.low, a.from.x, a.from.y) < std::tie(b.move, b.low, b.from.x, b.from.y);
}

}  // namespace

/// Places nearer than this are one, mm: wider than what rounding makes of a plane's offsets.
constexpr double same_place = 1e-9;

PlaneSweep::PlaneSweep(const MovesAlongShaft& moves, const CutterPart& part, double z, double stock,
                       std::optional<double> only_at)
    : z_(z), stock_(stock) {
    add_over(moves, part, 0, only_at);
    sort_into_buckets();
}

PlaneSweep::PlaneSweep(const MovesAlongShaft& moves, const CutterPart& part, double z, double stock,
                       const StockBefore& before)
    : z_(z),
      stock_(stock),
      curve_(before.curve),
      on_bar_(before.curve == nullptr && (before.cuts == nullptr || before.cuts->empty())) {
    add_over(moves, part, 0);
    if (before.cuts != nullptr) {
        int first = -1;
        for (const auto& cut : *before.cuts)
            first -= cut->moves();
        for (const auto& cut : *before.cuts) {
            add_over(cut->cutting(), cut->cutter(), first);
            first += cut->moves();
        }
    }
    sort_into_buckets();
}

/// The moves that lie over the plane, the first of all under the index `first`.
void PlaneSweep::add_over(const MovesAlongShaft& moves, const CutterPart& part, int first,
                          std::optional<double> only_at) {
    const double low = std::max(z_ - part.last - same_place, only_at.value_or(-nowhere));
    const double high = std::min(z_ - part.first + same_place, only_at.value_or(nowhere));
    const auto wanted = [&](const ShaftMove& move) {
        return !only_at || (move.from.z == *only_at && move.to.z == *only_at);
    };
    double most = 0.0;
    moves.for_each(low, high, [&](int, const ShaftMove& move) {
        most += 2.0 + std::min(2.0 * buckets, std::ceil(std::abs(move.turn()) / sector_width));
    });
    steps_.reserve(steps_.size() + static_cast<std::size_t>(most));
    moves.for_each(low, high, [&](int index, const ShaftMove& move) {
        if (wanted(move)) add(move, first + index, part);
    });
}

PlaneSweep::PlaneSweep(const std::vector<ShaftMove>& path, const CutterPart& part, double z, double stock)
    : z_(z), stock_(stock) {
    for (std::size_t i = 0; i < path.size(); ++i) {
        if (path[i].least_tip() + part.height < stock) add(path[i], static_cast<int>(i), part);
    }
    sort_into_buckets();
}

/// The part of the move during which the cutter's part lies over the plane, with its section there.
void PlaneSweep::add(const ShaftMove& move, int index, const CutterPart& part) {
    const double off0 = z_ - move.from.z, off1 = z_ - move.to.z;
    if (off0 == off1) {
        const bool sections_differ = part.shape != CutterPart::Shape::round;
        if (const auto section = part.section(off0))
            add_steps(move, index, {0.0, 1.0, *section, section->raise, section->raise, sections_differ});
        return;
    }
    double enters = (part.first - off0) / (off1 - off0), leaves = (part.last - off0) / (off1 - off0);
    if (enters > leaves) std::swap(enters, leaves);
    enters = std::max(enters, 0.0);
    leaves = std::min(leaves, 1.0);
    if (enters > leaves) return;
    const double off_in = between(off0, off1, enters), off_out = between(off0, off1, leaves);
    const bool still = move.from.tip == move.to.tip && move.from.facing == move.to.facing;
    const bool changes = !still && !part.uniform(off_in, off_out);
    const double degrees = std::abs(move.turn()) / sector_width;
    if (changes && std::abs(off1 - off0) <= std::max(longest_slide, steepest_slide * degrees))
        return add_changing(move, index, part, enters, leaves);
    const auto section = part.widest_section(off_in, off_out);
    if (!section) return;
    if (changes && coarse_line_ == 0 && index >= 0) coarse_line_ = move.line;
    add_steps(move, index, {enters, leaves, *section, section->raise, section->raise});
}

/// In parts of a degree and of the longest slide: those that don't reach below the stock are not looked at
/// further.
void PlaneSweep::add_changing(const ShaftMove& move, int index, const CutterPart& part, double share_from,
                              double share_to) {
    const double degrees = std::abs(move.turn()) * (share_to - share_from) / sector_width;
    const double slides = std::abs(move.to.z - move.from.z) * (share_to - share_from) / longest_slide;
    const int parts = std::max(1, static_cast<int>(std::ceil(std::max(degrees, slides) - rounding_of_parts)));
    const auto off = [&](double share) { return z_ - between(move.from.z, move.to.z, share); };
    // Where a section has shrunk to nothing its raise is that of the last that was there.
    const auto raise = [&](double at, double fallback) {
        const auto section = part.section(off(at));
        return section ? section->raise : fallback;
    };
    for (int i = 0; i < parts; ++i) {
        const double from = between(share_from, share_to, static_cast<double>(i) / parts);
        const double to = between(share_from, share_to, static_cast<double>(i + 1) / parts);
        const double low =
            std::min(between(move.from.tip, move.to.tip, from), between(move.from.tip, move.to.tip, to));
        const auto section = part.section(off(0.5 * (from + to)));
        if (!section || low + std::min(raise(from, 0.0), raise(to, 0.0)) >= stock_) continue;
        add_steps(move, index, {from, to, *section, raise(from, section->raise), raise(to, section->raise)});
    }
}

/// In pieces of at most a degree, each with φ ascending.
void PlaneSweep::add_steps(const ShaftMove& move, int index, const PartOfMove& swept) {
    double facing0 = between(move.from.facing, move.to.facing, swept.share_from);
    double facing1 = between(move.from.facing, move.to.facing, swept.share_to);
    double low0 = between(move.from.tip, move.to.tip, swept.share_from) + swept.raise_from;
    double low1 = between(move.from.tip, move.to.tip, swept.share_to) + swept.raise_to;
    if (facing1 < facing0) {
        std::swap(facing0, facing1);
        std::swap(low0, low1);
    }
    keep_lowest_turns(facing0, low0, facing1, low1);
    const unsigned kind = section_index(swept.section);
    const double turn = facing1 - facing0;
    if (turn <= rounding_of_parts * sector_width) {
        const double low = std::min(low0, low1);
        if (low < stock_) put(facing0, {unit(facing0), 0.0, low, 0.0, index}, kind);
        return;
    }
    const double slope = (low1 - low0) / turn;
    if (swept.at_degrees && slope == 0.0) return add_level({facing0, facing1, low0}, index, kind);
    const int parts = static_cast<int>(std::ceil(turn / sector_width - rounding_of_parts));
    const double span = turn / parts;
    double before = facing0 - span;  // where the part before begins: each begins where that one ends
    for (int i = 0; i < parts; ++i) {
        const double facing = facing0 + span * i;
        const SweepStep part{unit(i == 0 ? facing : before + span), span, low0 + slope * span * i, slope,
                             index};
        if (part.least_low() < stock_) put(facing, part, kind);
        before = facing;
    }
}

/// From whole degree to whole degree: so those of passes that begin elsewhere are the same.
void PlaneSweep::add_level(const LevelWay& way, int index, unsigned section) {
    if (way.low >= stock_) return;
    double before = way.from;
    const auto go_to = [&](double facing) {
        put(before, {unit(before), facing - before, way.low, 0.0, index}, section);
        before = facing;
    };
    const double last = std::ceil(way.to / sector_width - rounding_of_parts) - 1.0;
    for (double k = std::floor(way.from / sector_width + rounding_of_parts) + 1.0; k <= last; k += 1.0)
        go_to(k * sector_width);
    go_to(way.to);
}

void PlaneSweep::put(double facing, SweepStep step, unsigned section) {
    step.section = section & 0x3fffffu;
    step.bucket = sector_of(facing) & 0x1ffu;
    steps_.push_back(step);
}

/// The last ones first: a program keeps to a place for many moves, and a helix has a section for each part.
unsigned PlaneSweep::section_index(const PlaneSection& section) {
    constexpr std::size_t looked_at = 64;
    const std::size_t least = sections_.size() > looked_at ? sections_.size() - looked_at : 0;
    for (std::size_t i = sections_.size(); i > least; --i) {
        if (sections_[i - 1] == section) return static_cast<unsigned>(i - 1);
    }
    sections_.push_back(section);
    return static_cast<unsigned>(sections_.size() - 1);
}

/// Put into their buckets, then each bucket sorted by height: long programs fill them evenly.
void PlaneSweep::sort_into_buckets() {
    for (const SweepStep& step : steps_)
        ++first_in_bucket_[step.bucket + 1u];
    for (std::size_t i = 0; i < buckets; ++i)
        first_in_bucket_[i + 1] += first_in_bucket_[i];
    std::array<int, buckets + 1> next = first_in_bucket_;
    std::vector<SweepStep> placed(steps_.size());
    for (const SweepStep& step : steps_)
        placed[static_cast<std::size_t>(next[step.bucket]++)] = step;
    steps_.swap(placed);
    least_low_.fill(nowhere);
    for (std::size_t i = 0; i < buckets; ++i) {
        const auto first = steps_.begin() + first_in_bucket_[i],
                   last = steps_.begin() + first_in_bucket_[i + 1];
        if (first == last) continue;
        hide_held(first_in_bucket_[i], first_in_bucket_[i + 1]);
        const auto shown =
            std::partition(first, last, [](const SweepStep& step) { return step.hidden == 0; });
        std::sort(first, shown, lower);
        std::sort(shown, last, lower);
        first_hidden_[i] = static_cast<int>(shown - steps_.begin());
        least_low_[i] = first->least_low();
        least_low_of_all_ = std::min(least_low_of_all_, least_low_[i]);
    }
}

/// Among the steps from `first` to `last`, which share a bucket. Those of earlier programs are left alone,
/// and a section hides no other of its own size: which of two passes cut a place is told by their order.
void PlaneSweep::hide_held(int first, int last) {
    if (sections_.size() < 2) return;
    std::vector<std::pair<Motion, int>> motions;
    motions.reserve(static_cast<std::size_t>(last - first));
    for (int i = first; i < last; ++i) {
        const SweepStep& step = steps_[static_cast<std::size_t>(i)];
        if (step.move >= 0) motions.emplace_back(motion_of(step, section(step).raise), i);
    }
    std::sort(motions.begin(), motions.end());
    for (std::size_t begin = 0, end = 0; begin < motions.size(); begin = end) {
        const PlaneSection* widest = nullptr;
        for (end = begin; end < motions.size() && motions[end].first == motions[begin].first; ++end) {
            const PlaneSection& each = section(steps_[static_cast<std::size_t>(motions[end].second)]);
            if (widest == nullptr || holds(each, *widest)) widest = &each;
        }
        for (std::size_t i = begin; i < end; ++i) {
            SweepStep& step = steps_[static_cast<std::size_t>(motions[i].second)];
            if (!(section(step) == *widest) && holds(*widest, section(step))) step.hidden = 1;
        }
    }
}

/// Visits the steps by their least height alone, those that may reach below `radius`, which the visitor
/// may lower, on some ray of the bucket `home`. A section that stands at least `gap` of turn away reaches no
/// lower on a ray than its least height / cos gap.
template <class Visit>
void PlaneSweep::for_near_buckets(unsigned home, const double& radius, Asked asked, Visit visit) const {
    for (int ring = 0; ring <= 2 * sector_reach; ++ring) {
        const int k = ring % 2 == 0 ? -ring / 2 : (ring + 1) / 2;  // 0, 1, -1, 2, -2, ...
        if (k > sector_reach) continue;
        // Of this and all farther rings the nearest is that of a negative k.
        if (least_low_of_all_ >= radius * gap_cosine(-std::abs(k))) return;
        const double reach = radius * gap_cosine(k);
        const auto bucket = static_cast<std::size_t>((static_cast<int>(home) + k + buckets) % buckets);
        if (least_low_[bucket] >= reach) continue;
        const auto visit_up = [&](int first, int last) {
            for (int i = first; i < last; ++i) {
                const SweepStep& step = steps_[static_cast<std::size_t>(i)];
                if (step.least_low() >= reach) break;
                visit(i, step);
            }
        };
        visit_up(first_in_bucket_[bucket], first_hidden_[bucket]);
        if (asked == Asked::all) visit_up(first_hidden_[bucket], first_in_bucket_[bucket + 1]);
    }
}

/// Visits the entries of those that may reach below `radius` on the ray.
template <class Visit>
void PlaneSweep::for_candidates(double psi, double& radius, Asked asked, int before, Visit visit) const {
    const Vec2 ray = unit(psi);
    for_near_buckets(sector_of(psi), radius, asked, [&](int i, const SweepStep& step) {
        if (step.move >= before || !may_reach_below(section(step), step, ray, radius)) return;
        visit(i, least_entry(section(step), step, ray));
    });
}

void PlaneSweep::take_hint(int hint, double psi, Left& left) const {
    const SweepStep& step = steps_[static_cast<std::size_t>(hint)];
    const Entry entry = least_entry(section(step), step, unit(psi));
    if (entry.radius < left.radius) left = {entry.radius, entry.slope, hint};
}

/// Before anything cuts.
Left PlaneSweep::uncut(double psi) const {
    if (curve_ == nullptr) return {stock_, 0.0, -1};
    const StandingCurve::Node node = curve_->on(psi);
    return node.radius < stock_ ? Left{node.radius, node.slope, -1} : Left{stock_, 0.0, -1};
}

double PlaneSweep::standing(double psi) const {
    return on_bar_ ? stock_ : left_on(psi, -1, 0).radius;
}

Left PlaneSweep::left_on(double psi, int hint, int before) const {
    Left left = uncut(psi);
    if (hint >= 0 && steps_[static_cast<std::size_t>(hint)].move < before) take_hint(hint, psi, left);
    const Asked asked = before == the_end ? Asked::shown : Asked::all;
    for_candidates(psi, left.radius, asked, before, [&](int i, const Entry& entry) {
        if (entry.radius < left.radius) left = {entry.radius, entry.slope, i};
    });
    return left;
}

/// What cuts on the ray before leaves on the window's last ray, too, about as much as is left on those
/// between.
PlaneSweep::Window PlaneSweep::window(double first, double last, const Left& before) const {
    Window made;
    made.below = stock_;
    if (before.step >= 0) {
        Left at_last{nowhere, 0.0, -1};
        take_hint(before.step, last, at_last);
        made.below = std::min(stock_, std::max(before.radius, at_last.radius));
    }
    const double half = 0.5 * (last - first);
    const Vec2 middle = unit(first + half);
    for_near_buckets(sector_of(first), made.below, Asked::shown, [&](int i, const SweepStep& step) {
        if (may_reach_below(section(step), step, middle, made.below, half)) made.steps.push_back(i);
    });
    return made;
}

Left PlaneSweep::left_on(double psi, int hint, const Window& window) const {
    Left left = uncut(psi);
    if (hint >= 0) take_hint(hint, psi, left);
    const Vec2 ray = unit(psi);
    for (const int i : window.steps) {
        const SweepStep& step = steps_[static_cast<std::size_t>(i)];
        if (!may_reach_below(section(step), step, ray, left.radius)) continue;
        const Entry entry = least_entry(section(step), step, ray);
        if (entry.radius < left.radius) left = {entry.radius, entry.slope, i};
    }
    return left.radius <= window.below ? left : left_on(psi, hint);
}

int PlaneSweep::first_cut(double psi, double depth) const {
    int first = the_end;
    double radius = standing(psi) - depth;
    for_candidates(psi, radius, Asked::all, the_end, [&](int i, const Entry& entry) {
        const int move = steps_[static_cast<std::size_t>(i)].move;
        if (move >= 0 && entry.radius < radius) first = std::min(first, move);
    });
    return first;
}

}  // namespace lobewright::proof
