/// What a command line names of a job: a lobe, a hand method.
#pragma once

#include <lobewright/lobe.h>

#include <string>
#include <vector>

namespace lobewright::cli {

/// The lobe called `name`; without a name, the only one. `command` wants it.
Outcome<std::size_t> find_lobe(const std::vector<SolvedLobe>& lobes, const std::string& name,
                               const std::string& command);

/// The method of [hand] called `name`; without a name, the only one. `command` wants it.
Outcome<std::string> find_method(const Job& job, const std::string& name, const std::string& command);

}  // namespace lobewright::cli
