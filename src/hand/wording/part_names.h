/// What cuts make of a lobe, in words.
#pragma once

#include <lobewright/hand.h>

#include <string>

namespace lobewright::hand {

/// "opening flank", "closing flank", "heel", "facet".
std::string part_name(HandPart part);
/// "opening" or "closing".
std::string flank_word(HandPart flank);

}  // namespace lobewright::hand
