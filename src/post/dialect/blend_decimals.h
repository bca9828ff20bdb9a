/// How finely the word for path blending tells its tolerance: planned is what the word tells, rounded down.
#pragma once

#include "base/text/length_text.h"

namespace lobewright {

inline constexpr Decimals blend_decimals{4, 6};

}  // namespace lobewright
