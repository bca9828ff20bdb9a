/// Commented jobs to begin from, one for each way of cutting.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright {

/// What starting_job has a job for: "offset-fixture", "dividing-head", "rotary-mill", "lathe-c".
const std::vector<std::string>& starting_purposes();

/// The text of a job file for an engine that is invented, sound as it stands, with a comment at every key
/// that a beginner has to settle; nothing for an unknown purpose. Lines end in "\n" and are at most 120
/// characters long.
std::optional<std::string> starting_job(std::string_view purpose);

}  // namespace lobewright
