/// The part of a pass that runs along the lobe.
#pragma once

#include "toolpath/path/knot_chain.h"

#include <optional>
#include <utility>
#include <vector>

namespace lobewright::toolpath {

/// Paths along the lobe that were found: in the next place along the shaft, and whole turns on, they are the
/// same.
class KnownContours {
  public:
    /// Of a path, all that tells it from others through the same tunnel: where in the turn it begins, how
    /// long it is, steps, and the feed for which it is laid out.
    struct Place {
        long long from = 0, length = 0;
        double layout_feed = 0.0;
        bool operator==(const Place&) const = default;
    };
    /// From 0 on.
    struct Found {
        Knots knots;
        std::vector<Gate> gates;
        GridRules rules;
    };

    /// Null: not known.
    [[nodiscard]] const Found* find(const Place& place) const;
    void keep(const Place& place, Found found) { all_.emplace_back(place, std::move(found)); }

  private:
    std::vector<std::pair<Place, Found>> all_;
};

/// The path along the lobe between two places of travel, in steps: through the tolerance's tunnel, level
/// wherever X stands still on the heel, with knots enough for the machine's limits on jumps. Nothing if the
/// grid is too coarse for the tunnel.
std::optional<KnotChain> contour_chain(const PassFrame& frame, long long from, long long to);

/// A knot at `at`, if the block over it is level.
void divide_level(Knots& knots, long long at);

}  // namespace lobewright::toolpath
