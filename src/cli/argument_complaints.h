/// Complaints about what stands on the command line, with the word that was probably meant.
#pragma once

#include <lobewright/diagnostic.h>

#include <string>
#include <vector>

namespace lobewright::cli {

Diagnostic wrong(std::string code, std::string what, std::string remedy);

/// "lobe, shaft, wheel".
std::string joined(const std::vector<std::string>& words);

/// The nearest of `known`, or else the only one that begins with the word; empty if there is none.
std::string meant(const std::string& word, const std::vector<std::string>& known);

/// "did you mean X", or the whole list where nothing is near.
std::string hint(const std::string& word, const std::vector<std::string>& known,
                 const std::string& prefix = "");

std::string see_help(const std::string& command);

}  // namespace lobewright::cli
