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
    /// The path starts at `start`, from where nothing has moved yet.
    PathBuilder(const Setup& setup, Stand start);

    [[nodiscard]] const Stand& now() const { return now_; }
    void rapid_to(Stand to);
    /// Straight to `to` at `feed` mm/min along `way` mm of the lobe's surface.
    void feed_to(Stand to, double way, double feed);

    void begin_pass(const Pass& pass);
    void count_contour_blocks(int blocks) { path_.passes.back().contour_blocks += blocks; }
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
