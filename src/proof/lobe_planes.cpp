#include "proof/lobe_planes.h"

#include "proof/plane_verdict.h"

#include <algorithm>
#include <cmath>

namespace lobewright::proof {
namespace {

/// A plane is taken this far inside an edge, mm.
constexpr double inside = 1e-6;

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
        for (const double place : places) {
            for (const double off : part.breaks()) {
                if (place + off > low && place + off < high) edges.push_back(place + off);
            }
        }
    };
    add(body.cutting);
    for (const CutterPart& part : body.blunt)
        add(part);
    tidy(edges);
    return edges;
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
    if (!body.along_shaft) {
        for (std::size_t i = 0; i < places.size(); ++i) {
            planes.push_back(places[i]);
            if (i > 0) planes.push_back(0.5 * (places[i - 1] + places[i]));
        }
    }
    std::erase_if(planes, [&](double z) { return z <= low || z >= high; });
    tidy(planes);
    return planes;
}

/// Whether some cutting move runs along the shaft: what it does in one plane it need not do in another.
bool slides(const std::vector<ShaftMove>& moves, double stock) {
    return std::any_of(moves.begin(), moves.end(), [&](const ShaftMove& move) {
        return move.from.z != move.to.z && move.least_tip() < stock;
    });
}

bool alike(const std::optional<Section>& a, const std::optional<Section>& b) {
    if (!a || !b) return a.has_value() == b.has_value();
    const auto same = [](double x, double y) { return std::abs(x - y) < 1e-9; };
    return same(a->raise, b->raise) && same(a->half_flat, b->half_flat) && same(a->corner, b->corner) &&
           same(a->ring, b->ring) && same(a->off, b->off);
}

/// Keeps the first of the planes that every part meets with the same section from every place.
void drop_repeated(std::vector<double>& zs, const std::vector<double>& places, const CutterBody& body) {
    std::vector<std::vector<std::optional<Section>>> seen;
    std::erase_if(zs, [&](double z) {
        std::vector<std::optional<Section>> sections;
        for (const double place : places) {
            sections.push_back(body.cutting.section(z - place));
            for (const CutterPart& part : body.blunt)
                sections.push_back(part.section(z - place));
        }
        const bool known = std::any_of(seen.begin(), seen.end(), [&](const auto& other) {
            return std::equal(sections.begin(), sections.end(), other.begin(), alike);
        });
        if (!known) seen.push_back(std::move(sections));
        return known;
    });
}

}  // namespace

std::vector<double> cutting_places(const std::vector<ShaftMove>& moves, double stock) {
    std::vector<double> places;
    for (const ShaftMove& move : moves) {
        if (move.least_tip() >= stock) continue;
        for (const double z : {move.from.z, move.to.z}) {
            if (places.empty() || places.back() != z) places.push_back(z);
        }
    }
    tidy(places);
    return places;
}

LobePlanes lobe_planes(const SolvedLobe& lobe, double allowance, const std::vector<ShaftMove>& moves,
                       const CutterBody& body, double stock) {
    const Design design(lobe, allowance);
    const auto widest = body.cutting.section(body.cutting.widest_offset(-1e9, 1e9));
    const bool round = widest && widest->half_flat == 0.0 && widest->corner > 0.0;
    const double section_curvature = round ? 1.0 / widest->corner : 0.0;
    LobePlanes made{&lobe, design, design.rays(section_curvature, hidden_dip), {}};
    const double low = lobe.z - 0.5 * lobe.width, high = lobe.z + 0.5 * lobe.width;
    const std::vector<double> places = cutting_places(moves, stock);
    made.zs = planes_over(low, high, places, body);
    if (!slides(moves, stock)) drop_repeated(made.zs, places, body);
    made.complete = made.zs.size() <= most_planes;
    if (!made.complete) made.zs.resize(most_planes);
    return made;
}

}  // namespace lobewright::proof
