/// Words that the parts of an offset fixture's sheet share.
#pragma once

#include "hand/sheet/sheet_parts.h"

#include <string>

namespace lobewright::hand {

/// "12", or with a vernier "12 + 0.4°".
std::string mark_words(const Sheet& sheet, const HandSetting& setting);

}  // namespace lobewright::hand
