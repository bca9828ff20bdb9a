#include "post/dialect/dialect_lines.h"

#include "post/dialect/dialect_checks.h"

#include <algorithm>

namespace lobewright::post {
namespace {

/// A place in braces holds a number as soon as the line is written.
std::string with_numbers(std::string line) {
    for (std::size_t from = line.find('{'); from != std::string::npos; from = line.find('{', from)) {
        const std::size_t to = line.find('}', from);
        if (to == std::string::npos) break;
        line.replace(from, to + 1 - from, "1");
    }
    return line;
}

std::string without_comments(std::string line) {
    line.resize(std::min(line.find(';'), line.size()));
    for (std::size_t from = line.find('('); from != std::string::npos; from = line.find('(')) {
        const std::size_t to = std::min(line.find(')', from), line.size() - 1);
        line.erase(from, to + 1 - from);
    }
    return line;
}

}  // namespace

std::optional<std::string> piece_that_is_no_word(const std::string& line) {
    const std::string text = without_comments(with_numbers(line));
    for (std::size_t at = text.find_first_not_of(" /%"); at != std::string::npos;
         at = text.find_first_not_of(' ', at)) {
        const std::size_t end = std::min(text.find_first_not_of("+-.0123456789", at + 1), text.size());
        if (!code_word(text.substr(at, end - at)))
            return text.substr(at, std::min(text.find(' ', at), text.size()) - at);
        at = end;
    }
    return std::nullopt;
}

std::vector<std::string> faults_of_places(const std::string& line, const std::vector<std::string>& known) {
    std::vector<std::string> faults;
    for (std::size_t from = line.find_first_of("{}"); from != std::string::npos;) {
        const std::size_t to = line.find('}', from);
        if (to == from || to == std::string::npos) {
            faults.push_back("a brace in \"" + line + "\" is not " + (to == from ? "opened" : "closed"));
            break;
        }
        const std::string name = line.substr(from + 1, to - from - 1);
        if (std::find(known.begin(), known.end(), name) == known.end())
            faults.push_back("there is no place {" + name + "}");
        from = line.find_first_of("{}", to + 1);
    }
    return faults;
}

std::string places_listed(const std::vector<std::string>& known) {
    std::string list;
    for (const std::string& place : known)
        list += (list.empty() ? "{" : ", {") + place + "}";
    return list.empty() ? "no braces" : list;
}

}  // namespace lobewright::post
