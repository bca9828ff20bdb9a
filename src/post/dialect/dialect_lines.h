/// Lines of a dialect as a controller will see them.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace lobewright::post {

/// The first piece of a line that is no word of a letter and a number, where it should be nothing else but
/// comments and "%"; places in braces stand for numbers. Nothing where there is none.
std::optional<std::string> piece_that_is_no_word(const std::string& line);

/// What is wrong with the line's braces: each must belong to a place of those that are known.
std::vector<std::string> faults_of_places(const std::string& line, const std::vector<std::string>& known);
/// "{tool}, {offset}"; with none known a word for that.
std::string places_listed(const std::vector<std::string>& known);

}  // namespace lobewright::post
