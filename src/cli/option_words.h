/// What the words of options mean: figures, formats, names from a short list.
#pragma once

#include "cli/options.h"

#include <lobewright/lift_table.h>

#include <optional>

namespace lobewright::cli {

/// Reads them into the fields that hold their meaning; the first that says nothing is the complaint.
std::optional<Diagnostic> read_option_words(Options& options);

/// Of a table; text is for people, as markdown is.
TableFormat table_format(TextFormat format);

}  // namespace lobewright::cli
