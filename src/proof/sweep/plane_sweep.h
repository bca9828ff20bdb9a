/// Everything that a part of the cutter sweeps in one plane across the shaft, asked ray by ray. This room
/// holds a program's moves as the shaft sees them, which of them lie over a plane, and what they leave in it.
#pragma once

#include "proof/section/moving_section.h"
#include "proof/sweep/earlier_cuts.h"
#include "proof/sweep/sectors.h"

#include <array>
#include <limits>
#include <optional>

namespace lobewright::proof {

/// After every move.
inline constexpr int the_end = std::numeric_limits<int>::max();

/// What is left on a ray.
struct Left {
    double radius = 0.0;  ///< mm
    double slope = 0.0;   ///< mm per radian of the ray's angle
    int step = -1;        ///< index of the step that cut there; -1: nothing did, the stock stands
};

/// Of equal motions from several places along the shaft the section that holds all others hides them: what is
/// left in the end is asked of it alone, what stood before some move is asked of all.
///
/// Exact where moves run in (rotary, radial) alone, or along the shaft with a section that stays the same. A
/// move that turns while it runs along the shaft, with a section that changes (a helix of a ball or an end),
/// is swept in parts of a degree and of `longest_slide` at most: in each the section's lowest point moves as
/// it does, and the rest is that of the part's middle, off by less than the section changes on half of the
/// part. One that runs along the shaft faster than `steepest_slide` is swept as its widest section, see
/// `coarse_line`.
class PlaneSweep {
  public:
    /// `moves`: those of the part that come below `stock`, the radius of the round blank, mm. `only_at`: of
    /// them, those that stay at that place along the shaft.
    PlaneSweep(const MovesAlongShaft& moves, const CutterPart& part, double z, double stock,
               std::optional<double> only_at = std::nullopt);
    /// On what stands before the program's first move. The moves of earlier programs are swept with it, each
    /// with its own cutter, as if they were moves of this one with indices below -1.
    PlaneSweep(const MovesAlongShaft& moves, const CutterPart& part, double z, double stock,
               const StockBefore& before);
    /// Of a few moves, whose indices are those of `path`.
    PlaneSweep(const std::vector<ShaftMove>& path, const CutterPart& part, double z, double stock);

    /// The radius left on the ray in direction `psi` (radians) by the moves before index `before`. `hint`: a
    /// step that may well be the one that cuts there; -1: none.
    [[nodiscard]] Left left_on(double psi, int hint = -1, int before = the_end) const;
    /// The steps that may cut on some rays near each other, gathered once for all of them.
    struct Window {
        double below = 0.0;      ///< mm: what reaches no ray of them below this radius is left out
        std::vector<int> steps;  ///< in the order in which left_on() looks at them
    };
    /// For the rays from `first` to `last`, which share a sector (sectors.h); `before`: what is left on the
    /// ray before.
    [[nodiscard]] Window window(double first, double last, const Left& before) const;
    /// The same as left_on(psi, hint) for a ray of the window.
    [[nodiscard]] Left left_on(double psi, int hint, const Window& window) const;
    /// The radius that stands on the ray before the program's first move.
    [[nodiscard]] double standing(double psi) const;

    /// The first move that takes anything off the ray, deeper than `depth` into what stands; the largest int
    /// if none.
    [[nodiscard]] int first_cut(double psi, double depth) const;

    [[nodiscard]] double z() const { return z_; }
    [[nodiscard]] double stock() const { return stock_; }
    [[nodiscard]] const std::vector<SweepStep>& steps() const { return steps_; }
    [[nodiscard]] const PlaneSection& section(const SweepStep& step) const { return sections_[step.section]; }
    /// The line of the first move that was not swept exactly; 0: none.
    [[nodiscard]] int coarse_line() const { return coarse_line_; }

  private:
    static constexpr int buckets = sectors_of_turn;
    /// mm along the shaft: with twice that a ball of 10 mm is off by 0.2 um, 2 mm beside its axis.
    static constexpr double longest_slide = 0.02;
    /// mm along the shaft by degree, of a slide of more than one part: 72 mm a turn.
    static constexpr double steepest_slide = 0.2;

    void add_over(const MovesAlongShaft& moves, const CutterPart& part, int first,
                  std::optional<double> only_at = std::nullopt);
    [[nodiscard]] Left uncut(double psi) const;
    void add(const ShaftMove& move, int index, const CutterPart& part);
    /// A part of a move during which the section stays the same but for its raise, which goes evenly from one
    /// value to another.
    struct PartOfMove {
        double share_from = 0.0, share_to = 1.0;
        PlaneSection section;
        double raise_from = 0.0, raise_to = 0.0;
        bool at_degrees = false;  // where it is level, it is parted at whole degrees
    };
    /// A section's way round at one height, from one facing to another.
    struct LevelWay {
        double from = 0.0, to = 0.0, low = 0.0;
    };
    void add_level(const LevelWay& way, int index, unsigned section);
    void add_changing(const ShaftMove& move, int index, const CutterPart& part, double share_from,
                      double share_to);
    void add_steps(const ShaftMove& move, int index, const PartOfMove& part);
    void put(double facing, SweepStep step, unsigned section);
    unsigned section_index(const PlaneSection& section);
    void sort_into_buckets();
    void hide_held(int first, int last);
    enum class Asked { all, shown };
    template <class Visit>
    void for_near_buckets(unsigned home, const double& radius, Asked asked, Visit visit) const;
    template <class Visit>
    void for_candidates(double psi, double& radius, Asked asked, int before, Visit visit) const;
    void take_hint(int hint, double psi, Left& left) const;

    double z_, stock_;
    const StandingCurve* curve_ = nullptr;
    bool on_bar_ = true;  // nothing has cut before the program, and the bar is whole
    std::vector<PlaneSection> sections_;
    std::vector<SweepStep> steps_;
    // Steps are sorted by bucket, there the hidden ones come last, and either are sorted by their least
    // height.
    std::array<int, buckets + 1> first_in_bucket_{};
    std::array<int, buckets> first_hidden_{};
    std::array<double, buckets> least_low_{};
    double least_low_of_all_ = nowhere;
    int coarse_line_ = 0;
};

}  // namespace lobewright::proof
