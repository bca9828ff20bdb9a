/// A route laid out for paper: pages of so many lines, column heads again on each.
#pragma once

#include "hand/sheet/route.h"

#include <string>

namespace lobewright::hand {

/// Lines of a page of A4, as plain text is printed.
inline constexpr std::size_t lines_a_page = 60;

/// No part but a table is broken, no heading stands alone at a page's foot, and a table that goes on has its
/// heads again. Pages after the first begin with the running head; all but the last are filled up with empty
/// lines, so that plain printing breaks where this does.
std::string paper_text(const Route& route, const std::string& running_head);

}  // namespace lobewright::hand
