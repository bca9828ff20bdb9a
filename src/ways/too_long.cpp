#include "ways/too_long.h"

#include "job/complaint.h"

namespace lobewright {

Diagnostic program_too_long(const OperationWork& work, const std::string& what, std::size_t characters,
                            const std::string& remedy) {
    return refusal(work.job, "machine.post", "program-too-long",
                   what + " has " + std::to_string(characters) + " characters, and " + work.dialect.name +
                       " takes " + std::to_string(work.dialect.longest_program),
                   remedy);
}

}  // namespace lobewright
