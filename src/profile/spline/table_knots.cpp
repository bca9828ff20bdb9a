#include "profile/spline/table_knots.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {

double reduced(double x, double from, double period) {
    return x - period * std::floor((x - from) / period);
}

namespace {

/// How far beyond the last reading at zero lift the spline may begin. Within the limit of zero the readings
/// can't tell where the lift begins; a take-off with the cube of the angle (one with a step in jerk) reaches
/// 8 times the height in twice the way, so that the way from the limit to 8 times that leads back to it.
double take_off(double at_zero, double next, double at_eight_fold) {
    return std::max(next - at_zero, at_eight_fold - at_zero);
}

/// The readings at angles from `from` to `to`, both ends included, that become knots. Between two that are
/// `spacing` apart and not fine there are no others.
std::vector<double> thinned(const std::vector<double>& angles, double spacing, const IsFine& fine) {
    std::vector<double> knots{angles.front()};
    for (std::size_t i = 1; i < angles.size();) {
        std::size_t next = i;
        while (next + 1 < angles.size() && angles[next] - knots.back() < spacing)
            ++next;
        if (next > i && fine(knots.back(), angles[next])) {
            knots.insert(knots.end(), angles.begin() + static_cast<std::ptrdiff_t>(i),
                         angles.begin() + static_cast<std::ptrdiff_t>(next));
        }
        knots.push_back(angles[next]);
        i = next + 1;
    }
    const std::size_t last = knots.size() - 1;
    if (last >= 2 &&
        knots[last] - knots[last - 1] < 0.5 * std::min(spacing, knots[last - 1] - knots[last - 2]))
        knots.erase(knots.end() - 2);
    return knots;
}

/// One end of the event: the reading at zero there, its neighbour off it, and the first that is eight times
/// as high as the base circle's scatter; angles count away from the base circle.
struct EventEnd {
    double at_zero = 0.0;
    double next = 0.0;
    double at_eight_fold = 0.0;
};

/// Knots outside the event at one of its ends, counted from the reading at zero, outwards.
std::vector<double> knots_outside(const EventEnd& end, double room, double least_step) {
    const double way = std::min(room, take_off(end.at_zero, end.next, end.at_eight_fold));
    const double step = std::max(end.next - end.at_zero, least_step);
    constexpr double whole = 1e-6;  // of a step: so little more than a number of them is that number
    const int count = static_cast<int>(std::ceil(way / step - whole)) + 2;
    std::vector<double> knots;
    for (int i = 1; i <= count; ++i)
        knots.push_back(way * i / count);
    return knots;
}

TableKnots event_knots(const OrderedReadings& ordered, const IsFine& fine) {
    const ReadingRing& r = ordered.ring;
    const double period = r.period(), spacing = least_knot_spacing * period;
    const double before = r[ordered.first - 1].angle;
    const double behind = ordered.last + 1 < r.size() ? r[ordered.last + 1].angle : r[0].angle + period;
    std::size_t up = ordered.first, down = ordered.last;
    while (r[up].lift < 8.0 * ordered.limits.limit && up < ordered.last)
        ++up;
    while (r[down].lift < 8.0 * ordered.limits.limit && down > ordered.first)
        --down;
    const double room = 0.45 * (period - (behind - before));
    const auto lead = knots_outside({before, r[ordered.first].angle, r[up].angle}, room, spacing);
    const auto trail = knots_outside({-behind, -r[ordered.last].angle, -r[down].angle}, room, spacing);

    std::vector<double> angles{before};
    for (std::size_t i = ordered.first; i <= ordered.last; ++i)
        angles.push_back(r[i].angle);
    angles.push_back(behind);
    TableKnots event{thinned(angles, spacing, fine), QuinticBasis::Ends::open};
    for (const double way : lead)
        event.knots.insert(event.knots.begin(), before - way);
    for (const double way : trail)
        event.knots.push_back(behind + way);
    return event;
}

}  // namespace

TableKnots table_knots(const OrderedReadings& ordered, const IsFine& fine) {
    if (ordered.base_circle) return event_knots(ordered, fine);
    std::vector<double> angles;
    for (const OrderedReading& r : ordered.ring.readings())
        angles.push_back(r.angle);
    angles.push_back(angles.front() + ordered.ring.period());
    TableKnots ring{thinned(angles, least_knot_spacing * ordered.ring.period(), fine),
                    QuinticBasis::Ends::ring};
    constexpr std::size_t fewest = 13;  // that a ring of degree 5 needs
    if (ring.knots.size() < fewest) ring.knots = std::move(angles);
    return ring;
}

}  // namespace lobewright::profile
