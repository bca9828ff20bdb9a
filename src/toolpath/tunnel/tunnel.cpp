#include "toolpath/tunnel/tunnel.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewright::toolpath {
namespace {

/// A wall at one contact: its value and its slope along the travel.
struct Wall {
    double value = 0.0;
    double slope = 0.0;
};

Wall wall(const CutterContact& c, double margin, double side) {
    const auto [sine, cosine] = elementary::sine_and_cosine(c.lean.radians());
    if (margin <= 0.0) return {c.radial, c.slope};
    const double off = radial_margin(c, margin);
    double growth = off * sine / cosine;  // d off / dψ
    if (const double radius = c.effective_radius; std::isfinite(radius)) {
        const double root = std::sqrt(radius * radius * cosine * cosine + margin * (2.0 * radius + margin));
        growth = radius * sine * off / root;
    }
    return {c.radial + side * off, c.slope + side * growth * c.lean_slope};
}

/// How far a wall between two contacts bows above (side +1) or below (-1) its chord: of the cubic
/// s(1-s)(m0(1-s) - m1 s)h, a quarter of h times the larger of m0 and -m1 bounds it.
double bow(const Wall& a, const Wall& b, double h, double side) {
    const double chord = (b.value - a.value) / h;
    return 0.25 * h * std::max({side * (a.slope - chord), side * (chord - b.slope), 0.0});
}

struct Upright {
    double at = 0.0;
    double cosine = 1.0;  // of the lean
    Wall low, high;
    double off_low = 0.0, off_high = 0.0;
};

void take_off_bows(std::vector<Upright>& uprights) {
    for (std::size_t i = 0; i + 1 < uprights.size(); ++i) {
        Upright& a = uprights[i];
        Upright& b = uprights[i + 1];
        const double h = b.at - a.at;
        if (h <= 0.0) continue;
        const double up = bow(a.low, b.low, h, 1.0), down = bow(a.high, b.high, h, -1.0);
        a.off_low = std::max(a.off_low, up), b.off_low = std::max(b.off_low, up);
        a.off_high = std::max(a.off_high, down), b.off_high = std::max(b.off_high, down);
    }
}

/// Two places of travel closer than this, radians, are one: far over the rounding of some turns of travel
/// (1e-15 of it), far below a step of any rotary word (1e-6 degrees are 2e-8).
constexpr double same_place = 1e-11;

std::vector<Gate> merged(const std::vector<Upright>& uprights, double narrow) {
    std::vector<Gate> gates;
    for (const Upright& u : uprights) {
        const double low = u.low.value + u.off_low + narrow / u.cosine;
        const double high = u.high.value - u.off_high - narrow / u.cosine;
        if (!gates.empty() && u.at - gates.back().at < same_place) {
            gates.back().low = std::max(gates.back().low, low);
            gates.back().high = std::min(gates.back().high, high);
        } else {
            gates.push_back({u.at, low, high});
        }
    }
    return gates;
}

/// Half of what a level stretch is wide, mm: a path that follows it is lost by the rounding of a radial word
/// of some 100 mm (1e-14 mm) nowhere, and no other word fits.
constexpr double level_width = 1e-9;

}  // namespace

double radial_margin(const CutterContact& c, double margin) {
    const double cosine = elementary::cos(c.lean.radians());
    if (margin <= 0.0) return 0.0;
    const double radius = c.effective_radius;
    if (!std::isfinite(radius)) return margin / cosine;
    const double rest = margin * (2.0 * radius + margin);
    return rest / (radius * cosine + std::sqrt(radius * radius * cosine * cosine + rest));
}

std::vector<Gate> tunnel(const std::vector<CutterContact>& contacts, Margins margins, double narrow) {
    std::vector<Upright> uprights;
    uprights.reserve(contacts.size());
    for (const CutterContact& c : contacts) {
        uprights.push_back({c.facing.radians(), elementary::cos(c.lean.radians()),
                            wall(c, margins.deep, -1.0), wall(c, margins.proud, 1.0)});
    }
    take_off_bows(uprights);
    return merged(uprights, narrow);
}

std::optional<long long> hold_level(std::vector<Gate>& gates, const std::vector<LevelSpan>& stretches,
                                    double wanted, double step) {
    std::vector<Gate> held;
    double low = -std::numeric_limits<double>::infinity(), high = -low;
    auto stretch = stretches.begin();
    for (const Gate& gate : gates) {
        while (stretch != stretches.end() && gate.at > stretch->to + same_place)
            ++stretch;
        if (stretch == stretches.end() || gate.at < stretch->from - same_place) {
            held.push_back(gate);
            continue;
        }
        low = std::max(low, gate.low), high = std::min(high, gate.high);
        if (held.empty() || held.back().at < stretch->from) held.push_back({stretch->from, 0.0, 0.0, true});
        if (held.back().at < stretch->to) held.push_back({stretch->to, 0.0, 0.0, true});
    }
    if (!std::isfinite(low)) return std::nullopt;
    const long long least = step_above(low / step);
    const long long most = step_below(high / step);
    if (least > most) return std::nullopt;
    const long long word = std::clamp(nearest_step(wanted / step), least, most);
    const double level = static_cast<double>(word) * step;
    for (Gate& gate : held) {
        if (gate.fixed) gate.low = level - level_width, gate.high = level + level_width;
    }
    gates = std::move(held);
    return word;
}

std::vector<Gate> opened_beside_levels(const std::vector<Gate>& held, const std::vector<Gate>& free) {
    constexpr double beside = 10.0 * same_place;
    const Sight sight(free);
    std::vector<Gate> found;
    const auto add_free = [&](double at) {
        const std::size_t next = sight.beyond(at);
        found.push_back({at, sight.wall(at, next, &Gate::low), sight.wall(at, next, &Gate::high)});
    };
    for (std::size_t i = 0; i < held.size(); ++i) {
        if (held[i].fixed && i > 0 && !held[i - 1].fixed) add_free(held[i].at - beside);
        found.push_back(held[i]);
        if (held[i].fixed && i + 1 < held.size() && !held[i + 1].fixed) add_free(held[i].at + beside);
    }
    return found;
}

std::optional<std::vector<Gate>> narrowed(const std::vector<Gate>& gates, double by) {
    std::vector<Gate> found = gates;
    for (Gate& g : found) {
        if (g.fixed) continue;
        g.low += by, g.high -= by;
        if (g.low >= g.high) return std::nullopt;
    }
    return found;
}

}  // namespace lobewright::toolpath
