/// Characters of UTF-8 texts: how many there are, and which of them may be shown.
#pragma once

#include <string>
#include <string_view>

namespace lobewright {

/// Length of the UTF-8 sequence at the start of `text`, 0 if it is none (overlong forms and surrogates are
/// none).
std::size_t sequence_length(std::string_view text);

/// Characters, not bytes: every byte of UTF-8 but its continuations.
std::size_t characters(std::string_view text);

/// `text` with blanks before it (or after it), so that it is at least `width` characters wide.
std::string flush_right(std::string_view text, std::size_t width);
std::string flush_left(std::string_view text, std::size_t width);

/// `text` as a terminal may show it: control characters, and those that turn the direction of writing, as
/// "\u001B"; bytes that are no UTF-8 as "\xC3".
std::string printable(std::string_view text);

/// Whether there is nothing in `text` that printable() would change.
bool is_printable(std::string_view text);

}  // namespace lobewright
