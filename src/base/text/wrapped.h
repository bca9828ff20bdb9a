/// Text broken into lines at its spaces, and at its line ends.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lobewright {

/// `text` in lines of at most `width` characters, each with a line end; the first begins with `first`, the
/// others with `others`, which count. A word that is longer than a line stands on one of its own.
std::string wrapped(std::string_view text, std::size_t width, const std::string& first,
                    const std::string& others);

/// `text` in lines of at most 100 characters, as wide as reports are; those after the first begin with
/// `indent` blanks.
std::string report_lines(std::string_view text, std::size_t indent);

/// A text's lines without their ends.
std::vector<std::string> lines_of(const std::string& text);

}  // namespace lobewright
