/// Text inside mark-up: SVG and HTML.
#pragma once

#include <string>
#include <string_view>

namespace lobewright {

/// Characters that mark-up keeps for itself as entities; those that it has no place for (control characters)
/// are left out.
std::string escaped(std::string_view text);

}  // namespace lobewright
