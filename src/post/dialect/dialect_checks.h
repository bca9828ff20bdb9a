/// Whether a dialect's description agrees with itself. This room reads dialects, checks them and tells of
/// them.
#pragma once

#include "base/document.h"

#include <lobewright/dialect.h>

namespace lobewright::post {

/// Complains about every contradiction, at the key's place in `document`.
void check_dialect(const Dialect& dialect, const Node& document, Diagnostics& complaints);

/// A G or M word as a controller sees it: "G01" and "g1.0" are the same.
struct CodeWord {
    char letter = 0;
    double number = 0.0;
    bool operator==(const CodeWord&) const = default;
};
/// Nothing where `text` is not a letter with a plain number.
std::optional<CodeWord> code_word(std::string_view text);

/// The words of a line of the dialect's file, at its spaces.
std::vector<std::string> words_of(std::string_view line);

/// The named places that header and footer lines may hold.
extern const std::vector<std::string> place_names;
/// Those of them that lines about the cutter and its length may hold.
extern const std::vector<std::string> tool_places;

}  // namespace lobewright::post
