/// What the words of options mean: figures, formats, names from a short list.
#pragma once

#include "cli/options.h"

#include <optional>

namespace lobewright::cli {

/// Reads them into the fields that hold their meaning; the first that says nothing is the complaint.
std::optional<Diagnostic> read_option_words(Options& options);

}  // namespace lobewright::cli
