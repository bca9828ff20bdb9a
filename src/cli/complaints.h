/// Complaints for a program to read.
#pragma once

#include <lobewright/diagnostic.h>

#include <string>

namespace lobewright::cli {

/// `complaints[]` with severity, code, file, line, column (null where they are unknown), message, remedy.
std::string complaints_json(const Diagnostics& messages);

}  // namespace lobewright::cli
