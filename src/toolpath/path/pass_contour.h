/// The part of a pass that runs along the lobe.
#pragma once

#include "toolpath/path/knot_chain.h"

#include <optional>
#include <utility>
#include <vector>

namespace lobewright::toolpath {

/// Paths along the lobe that were found: in the next place along the shaft, and whole turns on, they are the
/// same, and so is what a whole chain becomes that is kept over a floor (see linear_floor.h).
class KnownContours {
  public:
    /// Of a path, all that tells it from others through the same tunnel: where in the turn it begins, how
    /// long it is, steps, and the feed for which it is laid out.
    struct Place {
        long long from = 0, length = 0;
        double layout_feed = 0.0;
        bool operator==(const Place&) const = default;
    };
    /// That of a path between two places of travel, steps.
    [[nodiscard]] static Place place_of(const PassFrame& frame, long long from, long long to) {
        return {frame.in_turn(from), to - from, frame.layout_feed()};
    }
    /// From 0 on.
    struct Found {
        Knots knots;
        std::vector<Gate> gates;
        GridRules rules;
    };

    /// Null: not known.
    [[nodiscard]] const Found* find(const Place& place) const;
    void keep(const Place& place, Found found) { all_.emplace_back(place, std::move(found)); }

    /// A whole chain, from 0 on, its leads included, and which part of it is contour.
    struct Chain {
        Knots knots;
        Place contour;
        bool operator==(const Chain&) const = default;
    };
    /// Null: not known.
    [[nodiscard]] const Knots* find_kept(const Chain& chain) const;
    void keep(Chain chain, Knots kept) { chains_.emplace_back(std::move(chain), std::move(kept)); }

  private:
    std::vector<std::pair<Place, Found>> all_;
    std::vector<std::pair<Chain, Knots>> chains_;
};

/// The path along the lobe between two places of travel, in steps: through the tolerance's tunnel, level
/// wherever X stands still on the heel, with knots enough for the machine's limits on jumps. Nothing if the
/// grid is too coarse for the tunnel.
std::optional<KnotChain> contour_chain(const PassFrame& frame, long long from, long long to);

/// A knot at `at`, if the block over it is level.
void divide_level(Knots& knots, long long at);

}  // namespace lobewright::toolpath
