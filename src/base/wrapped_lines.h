/// Text in lines of a readable width.
#pragma once

#include <cstddef>
#include <string>

namespace lobewright {

/// Breaks `text` at spaces so that no line is longer than 100 bytes, as far as there are spaces; the lines
/// after the first begin with `indent` spaces. Ends with a newline.
std::string wrapped_lines(const std::string& text, std::size_t indent);

}  // namespace lobewright
