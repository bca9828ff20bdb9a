#pragma once

namespace lobewright::cli {

/// What `--version` prints: the version with the commit, if it is known, then what it was built with. The
/// file of it is written when the program is built (src/package/version_text.cmake).
const char* version_text();

}  // namespace lobewright::cli
