/// What Windows says went wrong, as errno says it elsewhere.
#pragma once

namespace lobewright::cli {

/// `error`: as GetLastError() tells it.
int errno_of(unsigned long error);

/// False, with errno of the call that failed last.
bool failed();

}  // namespace lobewright::cli
