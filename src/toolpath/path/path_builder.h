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

/// Of any chain of the job.
ChainRules chain_rules(const Setup& setup);

class PathBuilder {
  public:
    /// `from`: where the machine stands before, if passes are to run on from there.
    explicit PathBuilder(const Setup& setup, MachinePosition from = {}) : setup_(setup) { part_.to = from; }

    [[nodiscard]] const MachinePosition& now() const { return part_.to; }
    /// At rapid; what comes first of all is where the part starts.
    void rapid_to(MachinePosition to);
    /// Straight to `to` at `feed` mm/min along `distance` mm of the lobe's surface; `chip` as in PathBlock.
    void feed_to(MachinePosition to, double distance, double feed, double chip = 0.0);
    /// The same by a way that is no part of the lobe's surface, at the radial axis's own speed if it says so.
    void feed_in_air(MachinePosition to, double distance, double feed, bool at_axis_speed);
    /// Moves from here on belong to this pass.
    void begin_pass(const Pass& pass);
    /// The next move runs along the lobe.
    void count_contour_block();
    /// At rapid to where the part begins, and then as it goes. Required: it begins where this path may end.
    void append(const PathPart& part);
    /// Required: the last move is a rapid.
    PathPart finish();

  private:
    void add(MoveKind kind, MachinePosition to);
    void time_chain();
    [[nodiscard]] double chip_of(const PathBlock& block, double seconds) const;
    const Setup& setup_;
    bool started_ = false;
    PathPart part_;
    std::vector<PathBlock> chain_;  // feed moves since the last rapid: the last of part_.moves
};

/// Puts parts one after the other: from one to the next the shaft turns on at rapid, retracted.
class PathJoiner {
  public:
    /// The path starts there.
    PathJoiner(const Setup& setup, MachinePosition start);

    void add(const PathPart& part);
    [[nodiscard]] const MachinePosition& now() const { return now_; }
    Toolpath path() { return std::move(path_); }

  private:
    const Setup& setup_;
    MachinePosition now_;
    Toolpath path_;
};

/// Where a path starts whose first part that is: at the rotary word 0.
MachinePosition start_of(const PathPart& part);

/// One part of each list, such that all of them in this order take the least time.
/// Required: no list is empty.
Toolpath fastest_path(const Setup& setup, const std::vector<std::vector<PathPart>>& alternatives);

}  // namespace lobewright::toolpath
