/// The dialects that come with the program, inside the library: no file is needed for them.
#pragma once

#include <span>
#include <string_view>

namespace lobewright {

struct ShippedDialect {
    std::string_view name;  ///< as a job names it
    std::string_view text;  ///< of its file, for read_dialect
};

/// Those of postprocessors/ when the library was built, in the order of their names.
std::span<const ShippedDialect> shipped_dialects();

}  // namespace lobewright
