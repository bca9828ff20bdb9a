/// The time of every block from the surface feed and the machine's limits.
#pragma once

#include <lobewright/job.h>
#include <lobewright/toolpath.h>

#include <vector>

namespace lobewright::toolpath {

/// A straight feed move, in the units of the words and of the machine's limits.
struct PathBlock {
    double radial = 0.0;    ///< mm, signed
    double axial = 0.0;     ///< mm, signed
    double rotary = 0.0;    ///< degrees, signed
    double distance = 0.0;  ///< mm that the feed counts: what the contact runs on the lobe's surface
    double feed = 0.0;      ///< mm/min wanted along `distance`
    double chip = 0.0;      ///< mm of the thickest chip per radian that the shaft turns between two teeth
    bool at_axis_speed = false;  ///< `feed` is the axis's own, and not one that the job asks for
};

struct BlockTime {
    double seconds = 0.0;
    TimeLimit limit = TimeLimit::surface_feed;
};

/// Times of a chain of blocks that starts and ends at rest. Each block takes at least what the feed, each
/// axis's speed and the block rate ask for; and from block to block no axis's mean speed changes faster than
/// its acceleration allows between the blocks' middles (from rest: over half the first block):
///
///     |v₂ - v₁| <= a (t₁ + t₂) / 2
///
/// First a common speed for the two blocks of each joint, then a forward and a backward pass for speeding up
/// and slowing down, until all joints hold.
///
/// Where radial_jump or rotary_jump is given, |v₂ - v₁| is no more than that either, from and to rest too
/// (booked under the axis's acceleration). Where the axis goes on in its sense only the quicker block gives
/// way for that; where it turns back both do, so that together they take the least.
std::vector<BlockTime> block_times(const std::vector<PathBlock>& chain, const AxisLimits& limits);

/// What else the times of a whole chain depend on.
struct ChainRules {
    AxisLimits limits;
    double unit = 1.0;   ///< mm of the unit in which feeds are asked for
    bool stops = false;  ///< the controller comes to rest after each block (exact path)
};

/// As block_times, of the chain at its feeds, or with none of them over a lower one, whichever takes the
/// least with its stops: block_times are feasible and not the least that are, and a chain that is wanted too
/// fast may come out slower than one that isn't. The lower feeds are the figures of two digits, down to where
/// the feed alone takes longer, or to a fiftieth. So of two such figures the larger never takes longer.
std::vector<BlockTime> quickest_times(const std::vector<PathBlock>& chain, const ChainRules& rules);

/// The largest figure of two digits (1.2, 35, 820) below a positive value.
double figure_below(double value);

/// The least time of one block by the feed, the axes' speeds and the block rate.
BlockTime least_time(const PathBlock& block, const AxisLimits& limits);

/// The least time of a rapid from rest to rest by the axes' speeds, and the accelerations that are given; 0
/// along axes without a limit. mm and degrees.
double rapid_seconds(double radial, double axial, double rotary, const AxisLimits& limits);

/// Seconds by which a chain's straight radial blocks (the ways down to the work) take longer than their feed
/// says: a controller that keeps to the path comes to rest where the shaft begins to turn, and a change from
/// one speed to another takes (v₂ - v₁)² / (2 a max(v₁, v₂)) longer than none.
double ramp_seconds(const std::vector<PathBlock>& chain, const std::vector<BlockTime>& times,
                    const AxisLimits& limits);

/// Seconds by which blocks that turn the shaft take longer where the controller comes to rest after each
/// (exact path): each axis gets to its speed v at the acceleration a, and back, in v / a more than the same
/// way takes at v, or turns back half way before it gets there; the slowest axis counts.
double stop_seconds(const std::vector<PathBlock>& chain, const std::vector<BlockTime>& times,
                    const AxisLimits& limits);

}  // namespace lobewright::toolpath
