#include "proof/judge/lobe_planes.h"

#include "proof/judge/plane_verdict.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// A plane is taken this far inside an edge, mm.
constexpr double inside = 1e-6;

/// Planes over a lobe along which the cutter slides while it cuts.
constexpr int planes_of_slide = 24;

/// A hollow end cuts deepest where its corner passes, which may be anywhere over a lobe: planes that look for
/// it, evenly spread. Where the contact keeps off the corner the lobe's faces are the deepest, and exact.
constexpr int planes_of_hollow_end = 16;

/// A slide so slow that its shortest blocks are none: where they turn the shaft by less than this (radians)
/// after one that slides no further than that (mm), it slides on.
constexpr double shortest_rest = 2.0 * full_turn / 360.0, creep = 0.02;

/// Ascending, without those nearer than `inside` to another.
void tidy(std::vector<double>& values) {
    std::sort(values.begin(), values.end());
    values.erase(
        std::unique(values.begin(), values.end(), [](double a, double b) { return b - a < 2.0 * inside; }),
        values.end());
}

/// Where a part begins, ends or starts to change, over the lobe; the lobe's edges at both ends.
std::vector<double> edges_over(double low, double high, const std::vector<double>& places,
                               const CutterBody& body) {
    std::vector<double> edges{low, high};
    const auto add = [&](const CutterPart& part) {
        for (const double off : part.breaks()) {
            const IndexRange near = places_between(places, low - off - inside, high - off + inside);
            for (std::size_t i = near.begin; i < near.end; ++i) {
                if (places[i] + off > low && places[i] + off < high) edges.push_back(places[i] + off);
            }
        }
    };
    add(body.cutting);
    for (const CutterPart& part : body.blunt)
        add(part);
    tidy(edges);
    return edges;
}

/// The places over the lobe, and the middles between them and to their neighbours.
void add_places(std::vector<double>& planes, double low, double high, const std::vector<double>& places) {
    const IndexRange over = places_between(places, low, high);
    for (std::size_t i = over.begin; i < std::min(over.end + 1, places.size()); ++i) {
        planes.push_back(places[i]);
        if (i > 0) planes.push_back(0.5 * (places[i - 1] + places[i]));
    }
}

std::vector<double> planes_over(double low, double high, const std::vector<double>& places,
                                const CutterBody& body) {
    const std::vector<double> edges = edges_over(low, high, places, body);
    std::vector<double> planes;
    const bool changes = !body.along_shaft || body.cutting.corner > 0.0;
    for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
        const double a = edges[i], b = edges[i + 1];
        if (changes) planes.push_back(a + inside);
        if (body.along_shaft) planes.push_back(0.5 * (a + b));
        if (changes) planes.push_back(b - inside);
    }
    if (!body.along_shaft) add_places(planes, low, high, places);
    for (int i = 1; body.cutting.dish > 0.0 && i < planes_of_hollow_end; ++i)
        planes.push_back(low + (high - low) * i / planes_of_hollow_end);
    std::erase_if(planes, [&](double z) { return z <= low || z >= high; });
    tidy(planes);
    return planes;
}

/// mm: sections that differ by less leave the same surface, far below what the comparison may miss.
constexpr double same_section = 1e-9;

bool alike(const std::optional<PlaneSection>& a, const std::optional<PlaneSection>& b) {
    if (!a || !b) return a.has_value() == b.has_value();
    const auto same = [](double x, double y) { return std::abs(x - y) < same_section; };
    return same(a->raise, b->raise) && same(a->half_flat, b->half_flat) && same(a->corner, b->corner) &&
           same(a->ring, b->ring) && same(a->off, b->off);
}

/// Whether a part meets two planes from the same places with the same sections.
bool meets_alike(const CutterPart& part, const std::vector<double>& places, double z, double other) {
    const auto range = [&](double plane, double first, double last) {
        return places_between(places, plane - last, plane - first);
    };
    const IndexRange here = range(z, part.first, part.last), there = range(other, part.first, part.last);
    if (here.empty() && there.empty()) return true;
    if (here != there) return false;
    const auto [first, last] = part.changing();
    for (const IndexRange& changing : {range(z, first, last), range(other, first, last)}) {
        for (std::size_t i = changing.begin; i < changing.end; ++i) {
            if (!alike(part.section(z - places[i]), part.section(other - places[i]))) return false;
        }
    }
    return true;
}

/// Keeps the first of the planes that every part meets with the same section from every place.
void drop_repeated(std::vector<double>& zs, const std::vector<double>& places, const CutterBody& body) {
    std::vector<double> seen;
    std::erase_if(zs, [&](double z) {
        const bool known = std::any_of(seen.begin(), seen.end(), [&](double other) {
            return meets_alike(body.cutting, places, z, other) &&
                   std::all_of(body.blunt.begin(), body.blunt.end(),
                               [&](const CutterPart& part) { return meets_alike(part, places, z, other); });
        });
        if (!known) seen.push_back(z);
        return known;
    });
}

}  // namespace

CuttingPlaces cutting_places(const ShaftMoves& moves, double stock) {
    CuttingPlaces places;
    const auto add = [&](double z) {
        if (places.zs.empty() || places.zs.back() != z) places.zs.push_back(z);
    };
    double slide_ends = 0.0, rested = 0.0;  // radians since it slid
    bool sliding = false, creeping = false;
    for (int i = 0; i < moves.size(); ++i) {
        const ShaftMove move = moves[i];
        const bool cuts = move.least_tip() < stock;
        if (cuts && move.from.z != move.to.z) {
            if (!sliding) add(move.from.z);
            slide_ends = move.to.z;
            creeping = std::abs(move.to.z - move.from.z) <= creep;
            rested = 0.0;
            sliding = places.slides = true;
            continue;
        }
        rested += std::abs(move.turn());
        if (cuts && sliding && creeping && rested < shortest_rest) continue;
        if (sliding) add(slide_ends);
        if (cuts) add(move.from.z);
        sliding = false;
    }
    if (sliding) add(slide_ends);
    tidy(places.zs);
    return places;
}

IndexRange places_between(const std::vector<double>& places, double low, double high) {
    const auto begin = std::lower_bound(places.begin(), places.end(), low);
    const auto end = std::upper_bound(begin, places.end(), high);
    return {static_cast<std::size_t>(begin - places.begin()), static_cast<std::size_t>(end - places.begin())};
}

LobePlanes lobe_planes(const SolvedLobe& lobe, double allowance, const CuttingPlaces& places,
                       const CutterBody& body) {
    const Design design(lobe, allowance);
    const PlaneSection widest = body.cutting.widest_section();
    const bool round = widest.half_flat == 0.0 && widest.corner > 0.0;
    const std::vector<DesignRay> rays = design.rays(round ? 1.0 / widest.corner : 0.0, hidden_dip);
    LobePlanes made{&lobe, design, rays, ContactWay(rays, widest), {}};
    const double low = lobe.z - 0.5 * lobe.width, high = lobe.z + 0.5 * lobe.width;
    made.zs = planes_over(low, high, places.zs, body);
    if (places.slides) {
        for (int i = 0; i < planes_of_slide; ++i)
            made.zs.push_back(low + (high - low) * (i + 0.5) / planes_of_slide);
        for (const double edge : {low + inside, high - inside})
            made.zs.push_back(edge);
        tidy(made.zs);
    }
    if (!places.slides) drop_repeated(made.zs, places.zs, body);
    made.complete = made.zs.size() <= most_planes;
    if (!made.complete) made.zs.resize(most_planes);
    return made;
}

}  // namespace lobewright::proof
