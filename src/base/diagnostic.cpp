#include <lobewright/diagnostic.h>

#include <algorithm>

namespace lobewright {

std::string to_text(const Diagnostic& diagnostic) {
    std::string text;
    const Place& place = diagnostic.place;
    if (!place.file.empty()) {
        text += place.file;
        if (place.line > 0) text += ':' + std::to_string(place.line);
        if (place.line > 0 && place.column > 0) text += ':' + std::to_string(place.column);
        text += ": ";
    }
    if (diagnostic.severity == Severity::warning) text += "warning: ";
    if (diagnostic.severity == Severity::note) text += "note: ";
    text += diagnostic.what;
    if (!diagnostic.remedy.empty()) text += ": " + diagnostic.remedy;
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
}

bool has_errors(const Diagnostics& diagnostics) {
    return std::any_of(diagnostics.begin(), diagnostics.end(),
                       [](const Diagnostic& d) { return d.severity == Severity::error; });
}

}  // namespace lobewright
