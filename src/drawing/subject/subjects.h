/// What all drawings of a lobe need.
///
/// This folder holds what is drawn: a lobe, the shaft, the index wheel, a nose's template, the degree wheel,
/// a motion.
#pragma once

#include "drawing/kit/arc_chain.h"
#include "drawing/kit/title_block.h"

#include <lobewright/drawing.h>

namespace lobewright::drawing {

/// The unit vector straight up on the paper: what turns a lobe's frame so that its nose points there.
inline constexpr Vec2 up{0.0, 1.0};

/// "120°": degrees as dimensions have them.
std::string degree_figure(double degrees, int decimals = 3);

}  // namespace lobewright::drawing
