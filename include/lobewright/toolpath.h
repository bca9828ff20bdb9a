/// From solved lobes to moves: the radial word as a function of the rotary one, in the fewest blocks that the
/// tolerance allows, with times.
#pragma once

#include <lobewright/lobe.h>
#include <lobewright/word_grid.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// Machine words in whole steps of the grid, absolute. `rotary` already has the machine's sense: the word is
/// -φ where rotary_positive is ccw, +φ where it is cw; it runs on without jumps through the whole program.
struct Words {
    long long radial = 0;
    long long axial = 0;
    long long rotary = 0;
    bool operator==(const Words&) const = default;
};

enum class MoveKind { rapid, feed };

/// From the place of the move before it, straight in the words, to `to`.
struct Move {
    MoveKind kind = MoveKind::rapid;
    Words to;
    double seconds = 0.0;  ///< planned duration; 0 for a rapid
};

/// `infeed`: the turns of a wheel from the stock down to size, in one.
enum class PassKind { roughing, semi_finish, finish, spring, infeed };

/// What the time of a block was settled by.
enum class TimeLimit {
    surface_feed,
    radial_speed,
    axial_speed,
    rotary_speed,
    radial_acceleration,
    rotary_acceleration,
    block_rate
};
inline constexpr int time_limit_count = 7;

/// One pass over one lobe at one axial position: moves [first, last) of the path, its lead-in and lead-out
/// included.
struct Pass {
    std::size_t lobe = 0;  ///< index in the solved lobes
    PassKind kind = PassKind::finish;
    int ring = 0;        ///< of a roughing pass, from 1
    double axial = 0.0;  ///< mm, the axial word
    std::optional<double> slides_to =
        std::nullopt;      ///< mm, the axial word at the end of a pass that runs along the lobe in a helix
    double left_on = 0.0;  ///< mm along the normal that this pass leaves on the design
    double depth = 0.0;    ///< mm along the normal that it takes at most, of an infeed in a turn; 0: nothing
    double feed = 0.0;     ///< mm/min along the surface that it is to run at
    double thickest_chip = 0.0;  ///< mm, of a tooth where it is thickest (see cutting_data.h); 0: none
    double worn = 0.0;           ///< mm of radius that a wheel has lost before this lobe, since the first
    int turns = 1;               ///< of an infeed
    std::size_t first = 0;
    std::size_t last = 0;
    std::size_t contour_first =
        0;                   ///< of the moves that cut, without leads (roughing sectors: of the first sector)
    int contour_blocks = 0;  ///< how many they are
    double seconds = 0.0;
    double seconds_at[time_limit_count] = {};  ///< share of that time, by what settled it
};

struct Toolpath {
    WordGrid grid;
    Words start;  ///< where the machine must stand before the first move: outside everything
    std::vector<Move> moves;
    std::vector<Pass> passes;
    std::vector<std::size_t> dressings;  ///< moves before which the program stops for dressing the wheel
    double cycle_seconds = 0.0;          ///< feed moves, and rapids at the axes' speeds where those are given
    std::vector<std::size_t> unwindings;  ///< of the moves: rapids that wind the shaft back by whole turns
    double unwinding_seconds = 0.0;       ///< what they add to the time
};

/// Plans the whole shaft. Refusals (cutter too large for a hollow, end too narrow, neck or neighbour in the
/// way, lobes that overlap, limits that can't be met) name the quantity, its limit and the remedy, at the
/// key's place; so do the needs of Purpose::cut that the job doesn't meet.
Outcome<Toolpath> plan_toolpath(const Job& job, const std::vector<SolvedLobe>& lobes, const WordGrid& grid);

/// Some lines: passes, blocks, cycle time, the share of time at each limit, and where the surface feed could
/// not be held.
std::string toolpath_totals_text(const std::vector<SolvedLobe>& lobes, const Toolpath& path);

/// One row a pass: lobe, kind, depth, blocks, time; then the totals. For `cut --plan`.
std::string toolpath_text(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path);

/// The same as JSON: `units`, `passes[]` with lobe, kind (rough, semi-finish, finish, spring), ring (of a
/// roughing pass, else null), axial, slides_to (in a helix, else null), leaves (over the allowance, along the
/// normal), blocks, moves, seconds; `programs[]` (of each the names of its lobes, where there are several);
/// `blocks`, `moves`, `cycle_seconds`, `feed_seconds`, `unwindings`, `unwinding_seconds`,
/// `seconds_settled_by` with a member for each limit. Lengths in the job's units.
std::string toolpath_json(const Job& job, const std::vector<SolvedLobe>& lobes, const Toolpath& path,
                          const std::vector<std::vector<std::string>>& programs = {});

/// One operation of several with its plan.
struct PlannedOperation {
    Job job;
    std::vector<SolvedLobe> lobes;
    Toolpath path;
    std::vector<std::vector<std::string>> programs =
        {};  ///< names of the lobes of each, where it comes as several
};
/// `operations[]`, each with `operation` (its name), `cutter` and all that toolpath_json says of one.
std::string operations_json(const std::vector<PlannedOperation>& plans);

}  // namespace lobewright
