/// The ways to cut one lobe that are worth comparing.
#pragma once

#include "toolpath/cannot_cut.h"
#include "toolpath/path/pass_frame.h"
#include "toolpath/path/path_builder.h"
#include "toolpath/roughing/roughing.h"
#include "toolpath/section/axial_steps.h"

#include <optional>
#include <vector>

namespace lobewright::toolpath {

/// One way from the stock to size.
struct LobeChoice {
    std::vector<Ring> rings;    ///< of roughing, in order; semi-finish passes are the last of them
    AxialSteps rough_steps;     ///< where the rings are cut
    double depth = 0.0;         ///< mm, of a ring; 0: none
    double finish_stock = 0.0;  ///< mm that the finish pass finds

    /// How many of `rings` are roughing.
    [[nodiscard]] std::size_t roughing() const;
};

/// A choice and its path: all of it, or with `finishing` > 0 the roughing alone, to which come at least so
/// many seconds of finishing.
struct LobePlan {
    LobeChoice choice;
    PathPart part;
    double finishing = 0.0;
    [[nodiscard]] double seconds() const { return part.seconds + finishing; }
};

/// What all choices for a lobe have in common.
struct Finishing {
    Setup setup;                       ///< with the section that touches this lobe
    std::vector<CutterContact> nodes;  ///< of the finish pass, frame of the lobe
    AxialSteps steps;
};

class LobePlanner {
  public:
    LobePlanner(const std::vector<SolvedLobe>& lobes, std::size_t index, Finishing finishing);

    /// From the blank to the last spring pass by each roughing that rough_depth allows and that may be the
    /// fastest, in the order that the job asks for; none where the grid is too coarse for the tolerance.
    /// Impossible where the cutter would touch the lobes before it, which are only roughed then, and where
    /// tolerance and grid are too coarse for rough_depth.
    [[nodiscard]] Possible<std::vector<LobePlan>> plans() const;

    /// Semi-finishes and finishes, each over the whole width, wherever the path stands. False, and a path of
    /// no use, where the grid is too coarse.
    [[nodiscard]] bool finish(PathBuilder& path, const LobeChoice& choice) const;

    /// How many passes from the blank to the last spring pass, if each depth takes all places.
    [[nodiscard]] double passes() const;

    /// Of the normal from the radial direction, radians: the most anywhere.
    [[nodiscard]] double steepest_lean() const;

  private:
    [[nodiscard]] const Setup& setup() const { return finishing_.setup; }
    [[nodiscard]] LobeChoice finish_alone() const;
    [[nodiscard]] bool by_stage() const;
    [[nodiscard]] bool ground() const;
    [[nodiscard]] double takes_at_once(const LobeChoice& choice) const;
    [[nodiscard]] Possible<std::vector<LobePlan>> ground_plans() const;
    [[nodiscard]] bool infeed(PathBuilder& path, const Infeed& way) const;
    [[nodiscard]] RadialFunction travelled(const std::vector<CutterContact>& nodes) const;
    [[nodiscard]] AxialSteps rough_steps(const Roughing& roughing) const;
    [[nodiscard]] double at_least(const std::vector<Ring>& over, std::size_t places) const;
    [[nodiscard]] std::optional<Clash> clash_with_roughed(const LobeChoice& choice) const;
    [[nodiscard]] RadialFunction function_of(const Ring& ring) const;
    [[nodiscard]] bool rough(PathBuilder& path, const LobeChoice& choice) const;
    [[nodiscard]] bool rough_over(PathBuilder& path, const RadialFunction& function,
                                  const PassOrder& order) const;
    [[nodiscard]] bool goes_in_helix() const;
    [[nodiscard]] bool cut_helix(PathBuilder& path, const Ring& finish) const;
    [[nodiscard]] std::optional<LobePlan> plan(LobeChoice choice) const;
    [[nodiscard]] PassOrder order(const Ring& ring, double place) const;

    const std::vector<SolvedLobe>* lobes_;
    std::size_t index_;
    Finishing finishing_;
    std::optional<double> standing_;  // mm along the normal over the design, where the lobe stands already
    double total_;                    // mm to take off on the heel
    RadialFunction finish_;
    std::vector<Heel> heels_;  // of the finish pass, whatever the tolerance
};

/// Impossible where the cutter can't reach the whole lobe clear of everything else.
Possible<LobePlanner> lobe_planner(const Setup& setup, const std::vector<SolvedLobe>& lobes,
                                   std::size_t index);

}  // namespace lobewright::toolpath
