#include "cli/argument_complaints.h"

#include "base/document.h"

#include <algorithm>

namespace lobewright::cli {

Diagnostic wrong(std::string code, std::string what, std::string remedy) {
    return {Fault::bad_input, Severity::error,   std::move(code),
            std::move(what),  std::move(remedy), {"lobewright"}};
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : ", ") + word;
    return text;
}

std::string meant(const std::string& word, const std::vector<std::string>& known) {
    std::string nearest = nearest_word(word, known);
    if (!nearest.empty() || word.empty()) return nearest;
    const auto begins = [&](const std::string& each) { return each.starts_with(word); };
    const auto found = std::find_if(known.begin(), known.end(), begins);
    if (found == known.end() || std::find_if(found + 1, known.end(), begins) != known.end()) return {};
    return *found;
}

std::string hint(const std::string& word, const std::vector<std::string>& known, const std::string& prefix) {
    const std::string nearest = meant(word, known);
    if (!nearest.empty()) return "did you mean " + prefix + nearest + "?";
    std::vector<std::string> all;
    for (const std::string& each : known)
        all.push_back(prefix + each);
    return "there are " + joined(all);
}

std::string see_help(const std::string& command) {
    return "see lobewright " + command + " --help";
}

}  // namespace lobewright::cli
