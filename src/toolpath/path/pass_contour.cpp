#include "toolpath/path/pass_contour.h"

#include "base/whole_steps.h"
#include "toolpath/path/joint_jumps.h"

#include <algorithm>
#include <cmath>

namespace lobewright::toolpath {
namespace {

/// The parts of the heels between two places, from the pass's own zero, to whole steps outwards.
std::vector<LevelSpan> level_spans(const PassFrame& frame, long long from, long long to) {
    const std::vector<Heel> heels = heels_of(frame.function());
    std::vector<LevelSpan> found;
    if (heels.empty()) return found;
    const double step = frame.setup().steps.rotary;
    const double before = std::ceil((heels.back().end - frame.travel(from)).radians() / full_turn);
    for (double turns = -before;; turns += 1.0) {
        const ShaftAngle on = ShaftAngle::from_radians(turns * full_turn);
        if (heels.front().start + on >= frame.travel(to)) return found;
        for (const Heel& heel : heels) {
            const long long a = std::max(from, step_below((heel.start + on).radians() / step));
            const long long b = std::min(to, step_above((heel.end + on).radians() / step));
            if (a < b) found.push_back({frame.travel(a - from).radians(), frame.travel(b - from).radians()});
        }
    }
}

/// The tolerance's tunnel from the pass's own zero on, in the values of the radial word.
std::vector<Gate> gates_between(const PassFrame& frame, ShaftAngle from, ShaftAngle to) {
    const double word_offset = frame.setup().section.word_offset;
    std::vector<Gate> gates =
        tunnel(frame.function().between(from, to), frame.order().margins, frame.setup().grid.blend_tolerance);
    for (Gate& gate : gates) {
        gate.at -= from.radians();
        gate.low += word_offset;
        gate.high += word_offset;
    }
    // Where the pass begins and ends stands mostly no node, and nothing else hides what the cubic is off by.
    const Margins& margins = frame.order().margins;
    const double off = cubic_share * sag_share * std::max(margins.deep, margins.proud);
    for (Gate* gate : {&gates.front(), &gates.back()}) {
        gate->low += off;
        gate->high -= off;
    }
    return gates;
}

using Found = KnownContours::Found;

std::optional<Found> new_contour(const PassFrame& frame, long long from, long long to) {
    const Setup& setup = frame.setup();
    std::vector<Gate> gates = gates_between(frame, frame.travel(from), frame.travel(to));
    const std::vector<Gate> free = gates;
    GridRules rules{setup.steps, frame.longest_block().radians()};
    if (const std::vector<LevelSpan> spans = level_spans(frame, from, to); !spans.empty()) {
        const double wanted = frame.function().least() + setup.section.word_offset;
        const auto word = hold_level(gates, spans, wanted, setup.steps.radial);
        if (!word) return std::nullopt;
        rules.least = *word;
    }
    const auto block = [&](const GridKnot& a, const GridKnot& b) {
        return frame.laid_between({from + a.rotary, a.radial}, {from + b.rotary, b.radial}, true);
    };
    auto knots = path_with_small_jumps(gates, rules, block, frame.limits());
    if (!knots) return std::nullopt;
    return Found{std::move(*knots), opened_beside_levels(gates, free), rules};
}

}  // namespace

const KnownContours::Found* KnownContours::find(const Place& place) const {
    for (const auto& [known, found] : all_) {
        if (known == place) return &found;
    }
    return nullptr;
}

const Knots* KnownContours::find_kept(const Chain& chain) const {
    for (const auto& [known, kept] : chains_) {
        if (known == chain) return &kept;
    }
    return nullptr;
}

std::optional<KnotChain> contour_chain(const PassFrame& frame, long long from, long long to) {
    KnownContours* known = frame.order().known;
    const KnownContours::Place place = KnownContours::place_of(frame, from, to);
    const Found* found = known != nullptr ? known->find(place) : nullptr;
    std::optional<Found> made;
    if (found == nullptr) {
        made = new_contour(frame, from, to);
        if (!made) return std::nullopt;
        if (known != nullptr) known->keep(place, *made);
        found = &*made;
    }
    return KnotChain{moved_on(found->knots, from), {room_in_tunnel(found->gates, found->rules, from, to)}};
}

void divide_level(Knots& knots, long long at) {
    const auto after = std::lower_bound(knots.begin(), knots.end(), at,
                                        [](const GridKnot& k, long long x) { return k.rotary < x; });
    if (after == knots.begin() || after == knots.end() || after->rotary == at) return;
    if ((after - 1)->radial == after->radial) knots.insert(after, {at, after->radial});
}

}  // namespace lobewright::toolpath
