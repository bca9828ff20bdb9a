/// The names of temporary files.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace lobewright::cli {

/// How the names of all of a target's begin, ".job.ngc.lobewright-", short enough for what follows.
std::string left_over_beginning(const std::filesystem::path& target);
/// What follows: process and attempt, "123-0.part".
std::string left_over_ending(unsigned long process, int attempt);
/// Whether the name is one of these.
bool is_left_over(std::string_view name, std::string_view beginning);

/// So often a name that is taken is given up for the next.
inline constexpr int most_attempts = 100;

}  // namespace lobewright::cli
