/// One lobe's shape, without its place on the shaft: from profile and follower to motion and contour, or a
/// refusal. This room holds a shape for each kind of profile, and what cures an impossible one.
#pragma once

#include "profile/shape/shape_cause.h"

#include <lobewright/lobe.h>

#include <string>

namespace lobewright::profile {

/// Whose shape it is: the cause of it, and what a refusal says besides, names and the places of keys.
class ShapeRequest {
  public:
    /// `remedies`: a refusal names what would cure it, which takes a search.
    ShapeRequest(const Job& job, const LobeEntry& entry, const Follower& follower, bool remedies = true)
        : cause(shape_cause(job, entry, follower)), with_remedies(remedies), job_(job), entry_(entry) {}

    const ShapeCause cause;
    const bool with_remedies;

    [[nodiscard]] const Follower& follower() const { return cause.follower; }
    [[nodiscard]] double period() const { return full_turn / cause.repeat; }
    [[nodiscard]] Sense turns() const { return cause.turns; }
    [[nodiscard]] Units units() const { return cause.units; }
    /// Null where no card settles the angles.
    [[nodiscard]] const ValveTiming* timing() const { return cause.timing ? &*cause.timing : nullptr; }

    [[nodiscard]] const std::string& lobe() const { return entry_.name; }
    [[nodiscard]] std::string profile_key(const std::string& key) const {
        return "profile." + entry_.profile + "." + key;
    }
    [[nodiscard]] std::string follower_key(const std::string& key) const {
        return "follower." + entry_.follower + "." + key;
    }
    [[nodiscard]] std::string card_key(const std::string& key) const {
        return std::string("engine.") + (entry_.valve == Valve::inlet ? "inlet." : "exhaust.") + key;
    }
    /// A check that failed, at the place of a key.
    [[nodiscard]] Diagnostic refusal(const std::string& key, std::string code, std::string what,
                                     std::string remedy) const;

  private:
    const Job& job_;
    const LobeEntry& entry_;
};

/// Each fills of a lobe what its place on the shaft leaves open: motion, contour, base_radius, lift,
/// action_angle, arcs, smoothing_moved and their kin.
Outcome<SolvedLobe> shape_from_arcs(const ShapeRequest& request, const ArcsProfile& profile);
Outcome<SolvedLobe> shape_from_law(const ShapeRequest& request, const MotionProfile& profile);
Outcome<SolvedLobe> shape_from_table(const ShapeRequest& request, const TableProfile& profile);
Outcome<SolvedLobe> shape_from_fullest(const ShapeRequest& request, const FullestProfile& profile);
Outcome<SolvedLobe> shape_from_segments(const ShapeRequest& request, const SegmentsProfile& profile);

}  // namespace lobewright::profile
