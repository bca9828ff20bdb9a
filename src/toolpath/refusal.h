/// Complaints of the toolpath: places of keys and lengths in the user's units.
#pragma once

#include "job/complaint.h"
#include "job/typed_length.h"

#include <lobewright/job.h>

#include <string>

namespace lobewright::toolpath {

/// A limit that is accepted when it is applied: never above (or never below) `mm`, with its unit.
inline std::string length_at_most(double mm, Units units) {
    return typed_below(mm, units).words;
}
inline std::string length_at_least(double mm, Units units) {
    return typed_above(mm, units).words;
}

/// The path of a lobe's entry: "lobe[3]".
std::string lobe_key(std::size_t entry);

}  // namespace lobewright::toolpath
