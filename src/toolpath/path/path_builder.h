/// Collects moves: from places along the travel to words, and from chains of feed moves to their times. This
/// room holds what makes moves of knots: passes with their leads in and out, block times, small speed jumps
/// at the joints of blocks, and the joining of all passes to one path.
#pragma once

#include "toolpath/path/block_timing.h"
#include "toolpath/setup.h"

namespace lobewright::toolpath {

/// Where the machine is: steps of the grid. `travel` counts in the sense in which the passes run, whatever
/// the machine's sense.
struct MachinePosition {
    long long radial = 0;
    long long axial = 0;
    long long travel = 0;
};

/// A part of the path from retracted to retracted, in itself complete: whole turns of travel may be added.
struct PathPart {
    std::vector<Move> moves;
    std::vector<Pass> passes;
    double seconds = 0.0;  ///< feed moves, and rapids at the axes' speeds where those are given
    MachinePosition from;  ///< before the first move
    MachinePosition to;    ///< after the last
};

class PathBuilder {
  public:
    explicit PathBuilder(const Setup& setup) : setup_(setup) {}

    [[nodiscard]] const MachinePosition& now() const { return part_.to; }
    /// At rapid; what comes first of all is where the part starts.
    void rapid_to(MachinePosition to);
    /// Straight to `to` at `feed` mm/min along `distance` mm of the lobe's surface.
    void feed_to(MachinePosition to, double distance, double feed);
    /// Moves from here on belong to this pass.
    void begin_pass(const Pass& pass);
    /// The next move runs along the lobe.
    void count_contour_block();
    /// Required: the last move is a rapid.
    PathPart finish();

  private:
    void add(MoveKind kind, MachinePosition to);
    void time_chain();
    const Setup& setup_;
    bool started_ = false;
    PathPart part_;
    std::vector<PathBlock> chain_;  // feed moves since the last rapid: the last of part_.moves
};

/// One part of each list, such that all of them in this order take the least time; from one to the next the
/// shaft turns on at rapid, retracted. The path starts where the first of them does, at the rotary word 0.
/// Required: no list is empty.
Toolpath fastest_path(const Setup& setup, const std::vector<std::vector<PathPart>>& alternatives);

}  // namespace lobewright::toolpath
