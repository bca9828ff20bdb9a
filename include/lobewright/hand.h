/// Cutting by hand: the settings of an offset fixture, a dividing head or a rotary table, and what they leave.
#pragma once

#include <lobewright/lobe.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

enum class HandWork { flank, clear, facet };

/// One cut, or one ladder of cuts, at one index. Lengths in mm; nothing where a value does not apply.
struct HandSetting {
    int order = 0;  ///< running count from 1
    HandWork work = HandWork::facet;
    std::size_t lobe = 0;
    double index = 0.0;           ///< wheel's mark (with a vernier, a fraction), or degrees on the table's scale
    std::optional<int> turns;     ///< of the head's crank, from the head's zero
    std::optional<int> hole;
    std::optional<int> circle;
    ShaftAngle shaft_angle;       ///< direction on the shaft that faces the cutter, as set
    ShaftAngle wanted;            ///< as computed, before it was put on a mark
    std::optional<double> start;
    std::optional<double> finish;
};

/// The blank left standing between two flanks, measured on the blank's outside before going on.
struct Land {
    std::size_t lobe = 0;  ///< the lobe whose nose lies under it, or whose heel side it is; see `where`
    std::string where;
    double chord = 0.0;
    double arc = 0.0;
};

/// What the cuts make of one lobe, against the design, along the normal.
struct HandFinish {
    std::size_t lobe = 0;
    double highest_ridge = 0.0;
    double deepest = 0.0;        ///< < 0: a gouge
    double proudest = 0.0;
    CrankAngle opens_late;       ///< of the valve at its clearance, after minus design; later is positive
    CrankAngle closes_late;
    std::optional<double> nose_radius;  ///< to file
    std::optional<double> corner_stock; ///< comes off each corner there
};

struct HandFinding {
    Severity severity = Severity::note;
    std::string code;
    std::string lobe;   ///< empty: the whole shaft
    std::string message;
};

struct HandPlan {
    std::string method;
    std::vector<HandSetting> settings;
    std::vector<Land> lands;
    std::vector<HandFinish> finish;
    std::vector<HandFinding> findings;
};

/// The whole shaft by one method of [hand]. Refusals name the quantity, its limit and the remedy.
Outcome<HandPlan> plan_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method);

enum class HandFormat { csv, json, markdown };
std::string hand_text(const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan, HandFormat format);

}  // namespace lobewright
