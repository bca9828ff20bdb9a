/// Measured lobes on the page.
#pragma once

#include "sheet/page/page_sections.h"

namespace lobewright::sheet {

/// Where readings were given: each lobe's lift error over the cam angle as a plot, what the fit says of it,
/// and what was taken as known.
void put_readings(const PageView& page);

}  // namespace lobewright::sheet
