/// The viewer inside the page: its style and its scripts, made from src/sheet/viewer/ when the library is
/// built.
#pragma once

#include <span>

namespace lobewright::sheet {

const char* viewer_style();
/// In the order in which the page runs them.
std::span<const char* const> viewer_scripts();

}  // namespace lobewright::sheet
