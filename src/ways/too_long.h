/// A program that its controller has no room for.
#pragma once

#include <lobewright/operation_work.h>

namespace lobewright {

/// `what` is the program that has so many characters.
Diagnostic program_too_long(const OperationWork& work, const std::string& what, std::size_t characters,
                            const std::string& remedy);

}  // namespace lobewright
