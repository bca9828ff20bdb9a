/// The way straight down in the air, from the level of rapids to where a chain begins.
#pragma once

#include "toolpath/path/pass_frame.h"

#include <vector>

namespace lobewright::toolpath {

/// A part of the way.
struct Down {
    long long to = 0;   ///< steps of the radial word
    double feed = 0.0;  ///< mm/min
    bool at_axis_speed = false;
};

/// At the axis's speed but for the last of it; in steps of speed where radial_jump is given.
std::vector<Down> way_down(const PassFrame& frame, long long radial);

/// mm between two radial words.
double length_of(const PassFrame& frame, long long from, long long to);

std::vector<PathBlock> blocks_of(const PassFrame& frame, const std::vector<Down>& way);

}  // namespace lobewright::toolpath
