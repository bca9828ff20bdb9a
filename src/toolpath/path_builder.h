/// Collects moves: from places along the travel to words, and from chains of feed moves to their times.
#pragma once

#include "toolpath/block_timing.h"
#include "toolpath/setup.h"

namespace lobewright::toolpath {

/// Where the machine stands: steps of the grid. `travel` counts the way the passes run, whatever the
/// machine's sense.
struct Stand {
    long long radial = 0;
    long long axial = 0;
    long long travel = 0;
};

class PathBuilder {
  public:
    explicit PathBuilder(const Setup& setup) : setup_(setup) {}

    [[nodiscard]] const Stand& now() const { return now_; }
    void rapid_to(Stand to);
    /// Straight to `to` at `feed` mm/min along `way` mm of the lobe's surface.
    void feed_to(Stand to, double way, double feed);

    /// The first pass settles where the path starts: at its own place along the shaft, retracted, at rotary
    /// word 0.
    void begin_pass(const Pass& pass, Stand retracted);
    /// The next move runs along the lobe.
    void count_contour_block();
    void end_pass();

    /// Required: the last move is a rapid.
    Toolpath finish();

  private:
    void add(MoveKind kind, Stand to);
    void time_chain();
    const Setup& setup_;
    Stand now_;
    Toolpath path_;
    std::vector<Block> chain_;  // feed moves since the last rapid: the last of path_.moves
};

}  // namespace lobewright::toolpath
