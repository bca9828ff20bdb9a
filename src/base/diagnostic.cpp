#include "base/text/characters.h"

#include <lobewright/diagnostic.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace lobewright {
namespace {

/// What like complaints share.
using Likeness = std::tuple<std::string, Severity, std::string, std::string>;

Likeness likeness_of(const Diagnostic& each) {
    return {each.place.file, each.severity, each.code,
            each.cause.empty() ? without_list_numbers(each.what) : each.cause};
}

/// Those that one complaint stands for, beside itself.
struct Others {
    std::size_t told = 0;  ///< its own index
    int count = 0;
    int last_line = 0;
};

void append_count(Diagnostic& told, const Others& others) {
    std::string& end = told.remedy.empty() ? told.what : told.remedy;
    end += " (and " + std::to_string(others.count) + " more like it";
    if (others.last_line > told.place.line) end += ", to line " + std::to_string(others.last_line);
    end += ')';
}

/// The characters of a line as they are shown, one column each where they can be.
std::vector<std::string> shown_characters(std::string_view line) {
    std::vector<std::string> shown;
    while (!line.empty()) {
        const std::size_t length = std::max<std::size_t>(sequence_length(line), 1);
        const std::string_view one = line.substr(0, length);
        shown.push_back(one == "\t" ? " " : printable(one));
        line.remove_prefix(length);
    }
    return shown;
}

}  // namespace

std::string severity_word(Severity severity) {
    switch (severity) {
        case Severity::error:
            return "error";
        case Severity::warning:
            return "warning";
        case Severity::note:
            return "note";
    }
    return {};
}

Diagnostic finding(Severity severity, std::string code, std::string lobe, std::string what, std::string key) {
    Diagnostic found{Fault::check_failed, severity, std::move(code), std::move(what), {}, {}};
    found.lobe = std::move(lobe);
    found.key = std::move(key);
    return found;
}

Diagnostic finding_in_line(Severity severity, std::string code, int line, std::string what) {
    return {Fault::check_failed, severity, std::move(code), std::move(what), {}, {{}, line}};
}

std::string sentence_of(const Diagnostic& diagnostic) {
    return diagnostic.remedy.empty() ? diagnostic.what : diagnostic.what + ": " + diagnostic.remedy;
}

std::string to_text(const Diagnostic& diagnostic) {
    std::string text;
    const Place& place = diagnostic.place;
    if (!place.file.empty()) {
        text += place.file;
        if (place.line > 0) text += ':' + std::to_string(place.line);
        if (place.line > 0 && place.column > 0) text += ':' + std::to_string(place.column);
        text += ": ";
    }
    if (diagnostic.severity != Severity::error) text += severity_word(diagnostic.severity) + ": ";
    text += sentence_of(diagnostic);
    std::replace(text.begin(), text.end(), '\n', ' ');
    return printable(text);
}

std::string excerpt_text(const Diagnostic& diagnostic) {
    constexpr std::size_t widest = 70, before_caret = 50;
    if (diagnostic.line_text.empty()) return {};
    const std::vector<std::string> line = shown_characters(diagnostic.line_text);
    const auto caret = static_cast<std::size_t>(std::max(diagnostic.place.column, 1) - 1);
    const std::size_t first = line.size() > widest && caret > before_caret ? caret - before_caret : 0;
    const std::size_t last = std::min(line.size(), first + widest);
    std::string shown = first > 0 ? "..." : "", below = first > 0 ? "   " : "";
    for (std::size_t i = first; i < last; ++i) {
        shown += line[i];
        if (i < caret) below.append(characters(line[i]), ' ');
    }
    below.append(caret > last ? 1 : 0, ' ');
    const std::string number = std::to_string(diagnostic.place.line);
    return "  " + number + " | " + shown + (last < line.size() ? "..." : "") + "\n  " +
           std::string(number.size(), ' ') + " | " + below + "^\n";
}

bool has_errors(const Diagnostics& diagnostics) {
    return std::any_of(diagnostics.begin(), diagnostics.end(),
                       [](const Diagnostic& d) { return d.severity == Severity::error; });
}

Diagnostics told_once(const Diagnostics& diagnostics) {
    Diagnostics told;
    std::map<Likeness, Others> alike;
    std::set<std::string> texts;
    for (const Diagnostic& each : diagnostics) {
        if (!texts.insert(to_text(each)).second) continue;
        const auto [known, is_new] = alike.emplace(likeness_of(each), Others{told.size()});
        if (is_new) {
            told.push_back(each);
        } else {
            ++known->second.count;
            known->second.last_line = std::max(known->second.last_line, each.place.line);
        }
    }
    for (const auto& [likeness, others] : alike) {
        if (others.count > 0) append_count(told[others.told], others);
    }
    return told;
}

Diagnostics lobes_together(const Diagnostics& findings) {
    Diagnostics told;
    std::map<std::tuple<std::string_view, std::string_view, bool>, std::size_t> known;
    for (const Diagnostic& each : findings) {
        const auto [same, is_new] = known.emplace(
            std::tuple(std::string_view(each.code), std::string_view(each.what), each.lobe.empty()),
            told.size());
        if (is_new) {
            told.push_back(each);
        } else if (!each.lobe.empty()) {
            told[same->second].lobe += ", " + each.lobe;
        }
    }
    return told;
}

std::string without_list_numbers(std::string_view text) {
    constexpr std::string_view digits = "0123456789";
    std::string bare;
    while (!text.empty()) {
        const std::size_t open = std::min(text.find('['), text.size());
        bare += text.substr(0, open);
        text.remove_prefix(open);
        const std::size_t close = text.find_first_not_of(digits, 1);
        const bool number = close != std::string_view::npos && close > 1 && text[close] == ']';
        if (!number) bare += text.substr(0, 1);
        text.remove_prefix(number ? close + 1 : std::min<std::size_t>(1, text.size()));
    }
    return bare;
}

}  // namespace lobewright
