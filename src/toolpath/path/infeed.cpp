#include "toolpath/path/infeed.h"

#include "toolpath/path/joint_jumps.h"

#include <algorithm>

namespace lobewright::toolpath {
namespace {

/// Between gates the spiral bows from its chord by no more than the functions between their own nodes do, and
/// both are less than this share of the margin.
constexpr double bow_share = 0.05;

/// Down by along, of the spiral's last way to size: what it may stand proud there grows with the way that is
/// left, so that it comes to size aslant and doesn't drop on it. Common practice, no source.
constexpr double to_size_by_along = 0.1;
/// Steps of the radial word that it may stand proud anywhere, so that there is a word for it.
constexpr double least_proud_steps = 2.0;

/// mm, half the width of the gate that only the last knot passes.
constexpr double at_the_end = 1e-9;

/// Places of one turn at which either function has a node, and its ends.
std::vector<ShaftAngle> places_of(const RadialFunction& from, const RadialFunction& to, ShaftAngle start,
                                  ShaftAngle end) {
    std::vector<ShaftAngle> places;
    for (const RadialFunction* function : {&from, &to}) {
        for (const CutterContact& contact : function->between(start, end))
            places.push_back(contact.facing);
    }
    std::sort(places.begin(), places.end());
    constexpr double same_place = 1e-9;  // radians
    const auto same = [](ShaftAngle a, ShaftAngle b) { return (b - a).radians() < same_place; };
    places.erase(std::unique(places.begin(), places.end(), same), places.end());
    return places;
}

class SpiralTunnel {
  public:
    SpiralTunnel(const PassFrame& frame, const std::vector<RadialFunction>& turns, long long start)
        : frame_(frame), turns_(turns), start_(start) {}

    [[nodiscard]] std::vector<Gate> gates(const GridKnot& last) const {
        std::vector<Gate> gates;
        for (std::size_t k = 0; k + 1 < turns_.size(); ++k)
            add_turn(gates, k);
        gates.pop_back();
        const double at = static_cast<double>(last.rotary - start_) * frame_.setup().steps.rotary;
        const double value = static_cast<double>(last.radial) * frame_.setup().steps.radial;
        gates.push_back({at, value - at_the_end, value + at_the_end, true});
        return gates;
    }

  private:
    void add_turn(std::vector<Gate>& gates, std::size_t k) const {
        const ShaftAngle zero = frame_.travel(start_);
        const auto whole = static_cast<long long>(k);
        const ShaftAngle start = frame_.travel(start_ + whole * frame_.turn());
        const ShaftAngle end = frame_.travel(start_ + (whole + 1) * frame_.turn());
        const double proud = frame_.order().margins.proud;
        for (const ShaftAngle place : places_of(turns_[k], turns_[k + 1], start, end)) {
            const double share = (place - start).radians() / (end - start).radians();
            const double outer = turns_[k].at(place).radial, inner = turns_[k + 1].at(place).radial;
            const double word =
                outer + share * (inner - outer) + frame_.setup().section.word_offset + bow_share * proud;
            const double at = (place - zero).radians();
            if (gates.empty() || at > gates.back().at + 1e-9)
                gates.push_back({at, word, word + proud_at(place)});
        }
    }

    /// mm that the spiral may stand over its lower wall.
    [[nodiscard]] double proud_at(ShaftAngle place) const {
        const auto whole = static_cast<long long>(turns_.size()) - 1;
        const double left = (frame_.travel(start_ + whole * frame_.turn()) - place).radians();
        const double least = least_proud_steps * frame_.setup().steps.radial;
        const double aslant = to_size_by_along * left * length(turns_.back().at(place).point);
        return std::min((1.0 - 2.0 * bow_share) * frame_.order().margins.proud, std::max(least, aslant));
    }

    const PassFrame& frame_;
    const std::vector<RadialFunction>& turns_;
    long long start_;
};

}  // namespace

std::optional<KnotChain> infeed_chain(const PassFrame& frame, const std::vector<RadialFunction>& turns,
                                      long long start, const GridKnot& last) {
    std::vector<Gate> gates = SpiralTunnel(frame, turns, start).gates(last);
    const GridRules rules{frame.setup().steps, frame.longest_block().radians()};
    const auto block = [&](const GridKnot& a, const GridKnot& b) {
        return frame.laid_between({start + a.rotary, a.radial}, {start + b.rotary, b.radial}, true);
    };
    auto knots = path_with_small_jumps(gates, rules, block, frame.limits());
    if (!knots) return std::nullopt;
    Room room = room_in_tunnel(std::move(gates), rules, start, last.rotary);
    return KnotChain{moved_on(std::move(*knots), start), {std::move(room)}};
}

}  // namespace lobewright::toolpath
