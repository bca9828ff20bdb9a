#include "profile/readings/reading_outliers.h"

#include <algorithm>
#include <cmath>

namespace lobewright::profile {
namespace {

using Readings = std::vector<OrderedReading>;
constexpr std::size_t margin = 8;  // readings of the turns before and behind

/// The ring with `margin` readings of its neighbouring turns at either end.
Readings unrolled(const ReadingRing& ring) {
    const std::size_t count = ring.size();
    Readings all;
    all.reserve(count + 2 * margin);
    for (std::size_t i = 0; i < count + 2 * margin; ++i) {
        OrderedReading r = ring[i + count - margin];
        r.angle += i < margin ? -ring.period() : (i >= count + margin ? ring.period() : 0.0);
        all.push_back(r);
    }
    return all;
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

/// How far all[i] lies off the cubic through its two nearest neighbours on each side, those in [from, to)
/// left out.
double off_neighbours(const Readings& all, std::size_t i, std::size_t from, std::size_t to) {
    const OrderedReading* points[4] = {};
    int found = 0;
    for (std::size_t j = i; found < 2;) {
        if (--j < from || j >= to) points[found++] = &all[j];
    }
    for (std::size_t j = i; found < 4;) {
        if (++j < from || j >= to) points[found++] = &all[j];
    }
    return all[i].lift - cubic_through(points, all[i].angle);
}

/// How the readings [from, to) stand to their neighbours.
struct Standing {
    double off = 0.0;      // the least that one of them lies off the curve through the others
    double scatter = 0.0;  // the most that a neighbour does, with these left out
};

Standing standing_of(const Readings& all, std::size_t from, std::size_t to) {
    constexpr std::size_t reach = 3;  // neighbours on either side that are heard
    Standing standing;
    standing.off = std::abs(off_neighbours(all, from, from, to));
    for (std::size_t i = from + 1; i < to; ++i) {
        standing.off = std::min(standing.off, std::abs(off_neighbours(all, i, from, to)));
    }
    for (std::size_t k = 1; k <= reach; ++k) {
        for (const std::size_t neighbour : {from - k, to - 1 + k}) {
            standing.scatter = std::max(standing.scatter, std::abs(off_neighbours(all, neighbour, from, to)));
        }
    }
    return standing;
}

}  // namespace

std::vector<Outlier> outliers_of(const ReadingRing& ring, double least) {
    constexpr double times_scatter = 8.0;
    const Readings all = unrolled(ring);
    std::vector<Outlier> outliers;
    for (std::size_t i = margin; i < ring.size() + margin; ++i) {
        for (const std::size_t end : {i + 1, i + 2}) {
            const Standing standing = standing_of(all, i, end);
            if (standing.off <= std::max(least, times_scatter * standing.scatter)) continue;
            for (std::size_t j = i; j < end; ++j)
                outliers.push_back({(j - margin) % ring.size(), off_neighbours(all, j, i, end)});
            i = end;
            break;
        }
    }
    return outliers;
}

}  // namespace lobewright::profile
