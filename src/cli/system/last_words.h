/// How a program ends that can do nothing more.
#pragma once

#include <string_view>

namespace lobewright::cli {

inline constexpr std::string_view out_of_memory = "lobewright: stopped, out of memory\n";

/// Says the words on standard error, removes what is half written, and ends; needs no memory.
[[noreturn]] void end_with(std::string_view words, int exit_code) noexcept;

/// From here on an exception that can't get out ends the program so, with exit code 70.
void end_at_once_when_lost();

}  // namespace lobewright::cli
