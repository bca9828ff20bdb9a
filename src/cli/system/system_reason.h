/// Why the system refused a file, in plain words.
#pragma once

#include <string>

namespace lobewright::cli {

/// `number`: the system's error number. Words for "can't be read (...)".
std::string system_reason(int number);

}  // namespace lobewright::cli
