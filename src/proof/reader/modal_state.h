/// The state of a controller between blocks.
#pragma once

#include "proof/reader/code_table.h"

#include <limits>
#include <optional>

namespace lobewright::proof {

inline constexpr double unknown_place = std::numeric_limits<double>::quiet_NaN();

/// How the words of the path count between what was asked and what is driven.
enum class PathMode { unset, exact, blended, blended_without_bound };

/// Everything that one block hands on to the next. What the program has not set yet, and the dialect doesn't
/// settle, is empty (places: NaN).
struct ModalState {
    double radial = unknown_place, axial = unknown_place, rotary = unknown_place;  // mm, mm, degrees
    double side = unknown_place;                                                   // mm towards φ + 90°
    int home_lines = 0;  // of the dialect's way home, that have been done one after the other
    bool radial_at_home = false;
    int tool = 0;
    std::optional<int> length;  // its number; 0: none counts
    std::optional<double> mm_per_unit;
    std::optional<bool> absolute;
    std::optional<bool> diameter;
    Act motion = Act::motion_off;
    Act plane = Act::unknown;
    Act feed_mode = Act::unknown;
    std::optional<double> feed;  // as written; forgotten at a word for its mode, and where the unit changes
    double speed = 0.0;          // the last S
    int spindle = 0;             // +1 clockwise, -1 counter-clockwise, 0 off
    PathMode path = PathMode::unset;
    double blend = 0.0;  // mm
    bool offset_chosen = false;
    bool fed = false;   // a feed move was made since the tool was put in
    int operation = 0;  // tool changes after feed moves
    bool ended = false;
};

}  // namespace lobewright::proof
