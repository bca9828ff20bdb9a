#include "toolpath/path/way_in.h"

#include "base/whole_steps.h"
#include "toolpath/path/knot_chain.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace lobewright::toolpath {
namespace {

/// Down by along: of the way nearer to the surface, and of all the way down. Common practice, no source.
constexpr double nearer_by_along = 0.2, most_by_along = 0.5;
/// The same of a block of a sector's short lead-in, which ends in the thin end of the stock: a little less
/// than a plunge.
constexpr double most_slanting = 0.9;
/// mm: what takes less is no plunge, however steep.
constexpr double shallow = 0.05;
/// Travel of one block, and of the end over which the way bends to the surface's tangent.
constexpr ShaftAngle block_travel = ShaftAngle::from_degrees(2.0),
                     bend_travel = ShaftAngle::from_degrees(8.0);
/// More turns than this no stock takes.
constexpr int most_turns = 50;

double surface_radius(const PassFrame& frame, long long at) {
    return length(frame.function().at(frame.travel(at)).point);
}

bool is_steep(const PassFrame& frame, const GridKnot& a, const GridKnot& b, double most) {
    const double down = static_cast<double>(a.radial - b.radial) * frame.setup().steps.radial;
    const double along = (frame.travel(b.rotary) - frame.travel(a.rotary)).radians() *
                         std::min(surface_radius(frame, a.rotary), surface_radius(frame, b.rotary));
    return down > shallow && down > most * along;
}

/// Whether the way over the knots to the surface at `start` is.
bool is_steep(const PassFrame& frame, Knots knots, long long start, double most) {
    knots.push_back({start, frame.radial_steps(frame.function().at(frame.travel(start)).radial)});
    for (std::size_t i = 1; i < knots.size(); ++i) {
        if (is_steep(frame, knots[i - 1], knots[i], most)) return true;
    }
    return false;
}

/// A place of the way along the lobe, from the start back.
struct PlaceOnWay {
    long long at = 0;
    double radial = 0.0;  // mm, X of the surface
    double over = 0.0;    // mm
    double bow = 0.0;     // mm by which the surface bows over the chord to the place after it
};

/// By how much the surface stands over its own chord at most. Between two contacts it bows from theirs by no
/// more than a quarter of their spacing times what a slope there differs from it (see tunnel.cpp).
double bow_between(const PassFrame& frame, long long from, long long to) {
    const std::vector<CutterContact> contacts =
        frame.function().between(frame.travel(from), frame.travel(to));
    const CutterContact &first = contacts.front(), &last = contacts.back();
    const double slope = (last.radial - first.radial) / (last.facing - first.facing).radians();
    const auto over_chord = [&](const CutterContact& c) {
        return c.radial - first.radial - slope * (c.facing - first.facing).radians();
    };
    double most = 0.0;
    for (std::size_t i = 1; i < contacts.size(); ++i) {
        const CutterContact &a = contacts[i - 1], &b = contacts[i];
        const double spacing = (b.facing - a.facing).radians();
        if (spacing <= 0.0) continue;
        const double own = (b.radial - a.radial) / spacing;
        const double bow = 0.25 * spacing * std::max({a.slope - own, own - b.slope, 0.0});
        most = std::max(most, std::max(over_chord(a), over_chord(b)) + bow);
    }
    return most;
}

/// Whether the cutter stands in the air there, as far over the surface as that.
bool in_air(const PassFrame& frame, const PlaceOnWay& place, double drop) {
    if (place.radial + place.over >= frame.setup().blank_touch + frame.setup().air) return true;
    return place.over >= radial_margin(frame.function().at(frame.travel(place.at)), drop);
}

/// From the start back to the air.
std::vector<PlaceOnWay> places_back(const PassFrame& frame, long long start, double drop) {
    const long long step = [&] {
        const ShaftAngle longest = frame.longest_block();
        return std::max(1LL,
                        frame.steps(longest > ShaftAngle{} ? std::min(longest, block_travel) : block_travel));
    }();
    const auto x_at = [&](long long at) { return frame.function().at(frame.travel(at)).radial; };
    std::vector<PlaceOnWay> places{{start, x_at(start), 0.0, 0.0}};
    while (!in_air(frame, places.back(), drop) && start - places.back().at < most_turns * frame.turn()) {
        const PlaceOnWay& after = places.back();
        PlaceOnWay place{after.at - step, x_at(after.at - step), 0.0,
                         bow_between(frame, after.at - step, after.at)};
        const double turn = frame.travel(step).radians();
        const double along =
            turn * std::min(surface_radius(frame, place.at), surface_radius(frame, after.at));
        const double bent = frame.travel(start - place.at) / bend_travel;
        const double falls = std::max(0.0, place.radial - after.radial);
        place.over = after.over + std::min(nearer_by_along * std::min(1.0, bent) * along,
                                           std::max(0.0, most_by_along * along - falls));
        places.push_back(place);
    }
    return places;
}

/// Each knot so high that the chords on both sides of it stay over the surface.
Knots knots_along_lobe(const PassFrame& frame, long long start, double drop) {
    const std::vector<PlaceOnWay> places = places_back(frame, start, drop);
    Knots knots;
    for (std::size_t i = places.size(); i-- > 1;) {
        const double before = i + 1 < places.size() ? places[i + 1].bow : 0.0;
        // The last chord ends on the surface itself: it is over the bow from its beginning on.
        const double after = places[i].bow * (i == 1 ? 4.0 : 1.0);
        knots.push_back(
            {places[i].at, frame.radial_steps(places[i].radial + places[i].over + std::max(before, after))});
    }
    return knots;
}

}  // namespace

Knots way_into_sector(const PassFrame& frame, long long start, double drop) {
    Knots slanting = slanting_lead_in(frame, start);
    if (!is_steep(frame, slanting, start, most_slanting)) return slanting;
    return knots_along_lobe(frame, start, drop);
}

WayIn way_in(const PassFrame& frame, double drop, long long now) {
    const Start lead = soonest_start(frame, drop, frame.setup().air, now);
    WayIn way{lead_knots(frame, {lead.at - lead.in, lead.at, drop, true}), lead.at, lead.out};
    if (drop <= shallow || !is_steep(frame, way.knots, way.start, most_by_along)) return way;
    way.knots = knots_along_lobe(frame, lead.at, drop);
    const long long on = frame.turns_to(now, way.knots.front().rotary);
    way.start += on;
    way.knots = moved_on(std::move(way.knots), on);
    return way;
}

}  // namespace lobewright::toolpath
