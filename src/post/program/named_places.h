/// The named places that a dialect's own lines may hold, "{title}" and the like.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/toolpath.h>

#include <string>
#include <utility>
#include <vector>

namespace lobewright::post {

/// A place's name and what stands for it.
using PlaceText = std::pair<std::string, std::string>;

/// All places of header and footer lines, for this job and path.
std::vector<PlaceText> place_texts(const Job& job, const Toolpath& path, const Dialect& dialect);

/// Those of the cutter's number and its length's, "{tool}", "{offset}" and both with two digits.
std::vector<PlaceText> tool_texts(const Job& job);

/// `line` with each place's text in the place of its name in braces.
std::string with_places(std::string line, const std::vector<PlaceText>& places);

}  // namespace lobewright::post
