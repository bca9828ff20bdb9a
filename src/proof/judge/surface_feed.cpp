#include "proof/judge/surface_feed.h"

namespace lobewright::proof {
namespace {

/// Shares of the wanted feed: what the mean over a block may run over it before it is told, and what is an
/// error: common practice, no source.
constexpr double feed_warned_of = 1.1, feed_refused = 1.5;

}  // namespace

void check_surface_feed(const ShaftMoves& moves, const MoveMarks& finishes, const LobePlanes& lobe,
                        double surface_feed, Findings& findings) {
    for (const int i : finishes.in_order()) {
        const ShaftMove move = moves[i];
        if (move.rapid || move.seconds == 0.0) continue;
        const double feed = lobe.way.between(move.from.facing, move.to.facing) / move.seconds * 60.0;
        if (feed <= feed_warned_of * surface_feed) continue;
        std::string message = findings.words().surface_feed(feed, surface_feed);
        if (feed > feed_refused * surface_feed) {
            findings.error("surface-feed", move.line, std::move(message));
        } else {
            findings.warn("surface-feed", move.line, std::move(message));
        }
    }
}

}  // namespace lobewright::proof
