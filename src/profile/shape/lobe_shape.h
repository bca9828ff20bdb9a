/// One lobe's shape, without its place on the shaft: from profile and follower to motion and contour, or a
/// refusal. This room holds a shape for each kind of profile, and what cures an impossible one.
#pragma once

#include <lobewright/lobe.h>

#include <string>

namespace lobewright::profile {

/// Whose shape it is.
struct ShapeRequest {
    const Job& job;
    const LobeEntry& entry;
    const Follower& follower;
    bool with_remedies = true;  ///< a refusal names what would cure it, which takes a search

    [[nodiscard]] double period() const { return full_turn / entry.repeat; }
    [[nodiscard]] Sense turns() const { return job.shaft.turns; }
    [[nodiscard]] std::string profile_key(const std::string& key) const {
        return "profile." + entry.profile + "." + key;
    }
    [[nodiscard]] std::string follower_key(const std::string& key) const {
        return "follower." + entry.follower + "." + key;
    }
    /// A check that failed, at the place of a key.
    [[nodiscard]] Diagnostic refusal(const std::string& key, std::string code, std::string what,
                                     std::string remedy) const;
};

/// Each fills of a lobe what its place on the shaft leaves open: motion, contour, base_radius, lift,
/// action_angle, arcs, smoothing_moved and their kin.
Outcome<SolvedLobe> shape_from_arcs(const ShapeRequest& request, const ArcsProfile& profile);
Outcome<SolvedLobe> shape_from_law(const ShapeRequest& request, const MotionProfile& profile);
Outcome<SolvedLobe> shape_from_table(const ShapeRequest& request, const TableProfile& profile);
Outcome<SolvedLobe> shape_from_fullest(const ShapeRequest& request, const FullestProfile& profile);
Outcome<SolvedLobe> shape_from_segments(const ShapeRequest& request, const SegmentsProfile& profile);

}  // namespace lobewright::profile
