/// What one step had to say, put behind what the others had.
#pragma once

#include <lobewright/diagnostic.h>

namespace lobewright {

inline void append(Diagnostics& all, const Diagnostics& more) {
    all.insert(all.end(), more.begin(), more.end());
}

}  // namespace lobewright
