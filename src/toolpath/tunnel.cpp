#include "toolpath/tunnel.h"

#include "base/elementary/elementary.h"
#include "base/whole_steps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// A wall at one contact: its value and its slope along the travel.
struct Wall {
    double value = 0.0;
    double slope = 0.0;
};

Wall wall(const Contact& c, double margin, double side) {
    const auto [sine, cosine] = elementary::sine_and_cosine(c.lean);
    if (margin <= 0.0) return {c.radial, c.slope};
    const double off = radial_margin(c, margin);
    double growth = off * sine / cosine;  // d off / dψ
    if (std::isfinite(c.give)) {
        const double root = std::sqrt(c.give * c.give * cosine * cosine + margin * (2.0 * c.give + margin));
        growth = c.give * sine * off / root;
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

/// Two places closer than this are one.
constexpr double same_place = 1e-11;

std::vector<Gate> merged(const std::vector<Upright>& uprights, double narrow) {
    std::vector<Gate> gates;
    for (const Upright& u : uprights) {
        const double low = u.low.value + u.off_low + narrow, high = u.high.value - u.off_high - narrow;
        if (!gates.empty() && u.at - gates.back().at < same_place) {
            gates.back().low = std::max(gates.back().low, low);
            gates.back().high = std::min(gates.back().high, high);
        } else {
            gates.push_back({u.at, low, high});
        }
    }
    return gates;
}

double on_line(const Gate& a, const Gate& b, double at, double Gate::*side) {
    return a.*side + (b.*side - a.*side) * (at - a.at) / (b.at - a.at);
}

/// Knots rounded to the grid; each on both of its lines but for the rounding.
std::vector<GridKnot> rounded(const std::vector<Knot>& knots, Steps steps) {
    std::vector<GridKnot> found;
    for (std::size_t i = 0; i < knots.size(); ++i) {
        const long long rotary = nearest_step(knots[i].at / steps.rotary);
        const double moved = static_cast<double>(rotary) * steps.rotary - knots[i].at;
        double slopes = 0.0;
        int lines = 0;
        for (std::size_t j = i == 0 ? 0 : i - 1; j <= i && j + 1 < knots.size(); ++j) {
            const double length = knots[j + 1].at - knots[j].at;
            if (length <= 0.0) continue;
            slopes += (knots[j + 1].value - knots[j].value) / length, ++lines;
        }
        const double value = knots[i].value + (lines > 0 ? moved * slopes / lines : 0.0);
        const GridKnot knot{rotary, nearest_step(value / steps.radial)};
        if (!found.empty() && found.back().rotary == rotary) {
            if (i + 1 < knots.size()) continue;
            found.pop_back();
        }
        found.push_back(knot);
    }
    return found;
}

std::vector<GridKnot> split(const std::vector<GridKnot>& knots, Steps steps, double longest_block) {
    const long long most = step_below(longest_block / steps.rotary);
    if (most <= 0) return knots;
    std::vector<GridKnot> found{knots.front()};
    for (std::size_t i = 1; i < knots.size(); ++i) {
        const GridKnot a = knots[i - 1], b = knots[i];
        const long long way = b.rotary - a.rotary;
        const long long parts = (way + most - 1) / most;
        for (long long p = 1; p <= parts; ++p) {
            const long long rotary = a.rotary + way * p / parts;
            const double share = static_cast<double>(rotary - a.rotary) / static_cast<double>(way);
            found.push_back(
                {rotary, a.radial + nearest_step(share * static_cast<double>(b.radial - a.radial))});
        }
    }
    return found;
}

/// By how much the path leaves the tunnel, at the gates and at its own knots; 0 if it doesn't.
double spill(const std::vector<GridKnot>& knots, const std::vector<Gate>& gates, Steps steps) {
    double worst = 0.0;
    std::size_t gate = 0;
    const auto hold = [&](double low, double high, double value) {
        worst = std::max({worst, low - value, value - high});
    };
    for (std::size_t i = 0; i + 1 < knots.size(); ++i) {
        const double a = static_cast<double>(knots[i].rotary) * steps.rotary;
        const double b = static_cast<double>(knots[i + 1].rotary) * steps.rotary;
        const double from = static_cast<double>(knots[i].radial) * steps.radial;
        const double slope = (static_cast<double>(knots[i + 1].radial) * steps.radial - from) / (b - a);
        for (; gate < gates.size() && gates[gate].at <= b + same_place; ++gate) {
            hold(gates[gate].low, gates[gate].high, from + slope * (gates[gate].at - a));
        }
        if (gate > 0 && gate < gates.size()) {
            const Gate &left = gates[gate - 1], &right = gates[gate];
            hold(on_line(left, right, b, &Gate::low), on_line(left, right, b, &Gate::high),
                 from + slope * (b - a));
        }
    }
    return worst;
}

double greatest_turn(const std::vector<Knot>& knots) {
    double greatest = 0.0;
    for (std::size_t i = 1; i + 1 < knots.size(); ++i) {
        const double before = knots[i].at - knots[i - 1].at, after = knots[i + 1].at - knots[i].at;
        if (before <= 0.0 || after <= 0.0) continue;
        greatest = std::max(greatest, std::abs((knots[i + 1].value - knots[i].value) / after -
                                               (knots[i].value - knots[i - 1].value) / before));
    }
    return greatest;
}

}  // namespace

double radial_margin(const Contact& c, double margin) {
    const double cosine = elementary::cos(c.lean);
    if (margin <= 0.0) return 0.0;
    if (!std::isfinite(c.give)) return margin / cosine;
    const double stretch = margin * (2.0 * c.give + margin);
    return stretch / (c.give * cosine + std::sqrt(c.give * c.give * cosine * cosine + stretch));
}

std::vector<Gate> tunnel(const std::vector<Contact>& contacts, Margins margins, double narrow) {
    std::vector<Upright> uprights;
    uprights.reserve(contacts.size());
    for (const Contact& c : contacts) {
        uprights.push_back({c.facing, wall(c, margins.deep, -1.0), wall(c, margins.proud, 1.0)});
    }
    take_off_bows(uprights);
    return merged(uprights, narrow);
}

std::optional<std::vector<Gate>> narrowed(const std::vector<Gate>& gates, double by) {
    std::vector<Gate> found = gates;
    for (Gate& g : found) {
        g.low += by, g.high -= by;
        if (g.low >= g.high) return std::nullopt;
    }
    return found;
}

std::optional<std::vector<GridKnot>> path_on_grid(const std::vector<Gate>& gates, Steps steps,
                                                  double longest_block) {
    constexpr int tries = 8;
    double narrow = (longest_block > 0.0 ? 1.0 : 0.5) * steps.radial;  // splitting rounds once more
    for (int i = 0; i < tries; ++i) {
        const auto inner = narrowed(gates, narrow);
        if (!inner) return std::nullopt;
        const std::vector<Knot> knots = fewest_pieces(*inner);
        const std::vector<GridKnot> path = split(rounded(knots, steps), steps, longest_block);
        const double over = spill(path, gates, steps);
        if (over <= 1e-9) return path;
        narrow =
            std::max(narrow + 1.05 * over, 0.5 * steps.radial + 0.25 * steps.rotary * greatest_turn(knots));
    }
    return std::nullopt;
}

}  // namespace lobewright::toolpath
