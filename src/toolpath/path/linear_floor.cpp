#include "toolpath/path/linear_floor.h"

#include "toolpath/path/detour.h"

#include <algorithm>
#include <set>

namespace lobewright::toolpath {
namespace {

/// Rounds of looking for other knots, after which what still runs away is left to the proof.
constexpr int most_rounds = 12;
/// Blocks to either side of those that run away whose knots may move too.
constexpr std::size_t blocks_beside = 1;

/// Blocks of a chain that run away: their first knots.
using Places = std::vector<std::size_t>;

/// Within the tolerance's tunnel, wherever the chain is.
BlockMayBe within_tolerance(const KnotChain& chain) {
    return [&chain](const GridKnot& a, const GridKnot& b) {
        const auto holds = [&](const Room& room) { return room.from <= a.rotary && b.rotary <= room.to; };
        const auto room = std::find_if(chain.rooms.begin(), chain.rooms.end(), holds);
        return room == chain.rooms.end() || !room->is_tolerance || room->may_be(a, b);
    };
}

class FloorKeeper {
  public:
    FloorKeeper(KnotChain chain, const ChainTiming& timing)
        : chain_(std::move(chain)),
          timing_(timing),
          floor_(timing.block, timing.rules.limits, timing.floor, timing.steps.radial, timing.radius) {}

    Knots kept() {
        Knots best;
        std::size_t fewest = 0;
        for (int round = 0; round < most_rounds; ++round) {
            const Knots knots = eased_knots();
            const Places bad = running_away(knots);
            if (best.empty() || bad.size() < fewest) fewest = bad.size(), best = knots;
            if (bad.empty() || !changed_for(knots, bad)) break;
        }
        return best;
    }

  private:
    [[nodiscard]] bool is_own(const GridKnot& knot) const {
        const auto less = [](const GridKnot& a, const GridKnot& b) { return a.rotary < b.rotary; };
        return std::binary_search(chain_.knots.begin(), chain_.knots.end(), knot, less);
    }

    /// But for those that did harm.
    [[nodiscard]] Knots eased_knots() const {
        const BlockMayBe within = within_tolerance(chain_);
        const auto harms = [&](const GridKnot& knot) { return harmful_.count(knot.rotary) > 0; };
        return eased(
            chain_.knots, timing_.laid, timing_.rules.limits, timing_.steps,
            [&](const GridKnot& a, const GridKnot& b) { return !harms(a) && !harms(b) && within(a, b); });
    }

    Places running_away(const Knots& knots) {
        std::vector<PathBlock> blocks = timing_.before;
        for (std::size_t i = 1; i < knots.size(); ++i)
            blocks.push_back(timing_.block(knots[i - 1], knots[i]));
        const std::vector<BlockTime> times = quickest_times(blocks, timing_.rules);
        const std::size_t first = timing_.before.size();
        std::vector<double> seconds;
        Places found;
        for (std::size_t i = first; i < blocks.size(); ++i) {
            seconds.push_back(times[i].seconds);
            if (floor_.too_slow(blocks[i], times[i].seconds)) found.push_back(i - first);
        }
        if (!found.empty()) floor_.learn(knots, seconds);
        return found;
    }

    /// Takes eased knots out, or finds other knots, for the blocks that run away; whether there are any.
    bool changed_for(const Knots& knots, const Places& bad) {
        bool changed = false;
        std::set<long long> places;
        for (const std::size_t i : bad) {
            bool took_out = false;
            for (const GridKnot& end : {knots[i], knots[i + 1]}) {
                if (!is_own(end)) took_out = harmful_.insert(end.rotary).second || took_out;
            }
            if (!took_out) places.insert(knots[i].rotary);
            changed = changed || took_out;
        }
        for (const Room& room : chain_.rooms)
            changed = find_detours(room, places) || changed;
        return changed;
    }

    [[nodiscard]] std::size_t knot_after(long long place) const {
        const auto beyond = [](long long at, const GridKnot& knot) { return at < knot.rotary; };
        return static_cast<std::size_t>(
            std::upper_bound(chain_.knots.begin(), chain_.knots.end(), place, beyond) - chain_.knots.begin());
    }

    /// A knot that other knots are looked for on one side of alone.
    [[nodiscard]] bool stays(std::size_t i, const Room& room) const {
        const Knots& knots = chain_.knots;
        if (knots[i].rotary <= room.from || knots[i].rotary >= room.to) return true;
        return knots[i - 1].radial == knots[i].radial && knots[i].radial == knots[i + 1].radial;
    }

    bool find_detours(const Room& room, const std::set<long long>& places) {
        bool changed = false;
        std::size_t done = 0;
        for (auto place = places.lower_bound(room.from); place != places.end() && *place < room.to; ++place) {
            std::size_t last = knot_after(*place), first = last - 1;
            if (first < done) continue;
            for (auto next = std::next(place); next != places.end() && *next < room.to; ++next) {
                if (knot_after(*next) - 1 > last + blocks_beside) break;
                last = knot_after(*next);
            }
            for (std::size_t k = 0; k < blocks_beside && !stays(first, room); ++k)
                --first;
            for (std::size_t k = 0; k < blocks_beside && !stays(last, room); ++k)
                ++last;
            const std::size_t before = chain_.knots.size();
            changed = replace(room, first, last) || changed;
            done = last + chain_.knots.size() - before;
        }
        return changed;
    }

    bool replace(const Room& room, std::size_t first, std::size_t last) {
        const auto at = [&](std::size_t i) { return chain_.knots.begin() + static_cast<std::ptrdiff_t>(i); };
        const Knots window(at(first), at(last + 1));
        const Knots other = detour(window, room, floor_);
        if (other == window) return false;
        const auto gap = chain_.knots.erase(at(first), at(last + 1));
        chain_.knots.insert(gap, other.begin(), other.end());
        return true;
    }

    KnotChain chain_;
    const ChainTiming& timing_;
    FloorRule floor_;
    std::set<long long> harmful_;  // places of eased knots
};

}  // namespace

Knots kept_over_floor(KnotChain chain, const ChainTiming& timing) {
    if (timing.floor == 0.0)
        return eased(chain.knots, timing.laid, timing.rules.limits, timing.steps, within_tolerance(chain));
    return FloorKeeper(std::move(chain), timing).kept();
}

std::optional<RunsAway> runs_away(const Toolpath& path) {
    const WordGrid& grid = path.grid;
    if (grid.least_linear_feed == 0.0) return std::nullopt;
    std::optional<RunsAway> found;
    Words at = path.start;
    for (std::size_t i = 0; i < path.moves.size(); ++i) {
        const Move& move = path.moves[i];
        PathBlock block;
        block.radial = static_cast<double>(move.to.radial - at.radial) * grid.radial_step;
        block.axial = static_cast<double>(move.to.axial - at.axial) * grid.axial_step;
        at = move.to;
        if (move.kind == MoveKind::rapid || !under_floor(block, move.seconds, grid.least_linear_feed))
            continue;
        const auto after = [](std::size_t index, const Pass& pass) { return index < pass.last; };
        const auto pass = std::upper_bound(path.passes.begin(), path.passes.end(), i, after);
        if (!found) found = RunsAway{pass != path.passes.end() ? pass->lobe : 0, 0};
        ++found->blocks;
    }
    return found;
}

}  // namespace lobewright::toolpath
