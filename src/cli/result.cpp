#include "cli/result.h"

#include <algorithm>
#include <tuple>

namespace lobewright::cli {

int exit_code(const Diagnostics& messages) {
    int code = 0;
    for (const Diagnostic& each : messages) {
        if (each.severity == Severity::error) code = std::max(code, static_cast<int>(each.fault));
    }
    return code;
}

void sort_by_place(Diagnostics& messages) {
    std::vector<std::string> files;
    const auto rank = [&files](const Place& place) {
        if (place.line == 0) return files.size();
        return static_cast<std::size_t>(std::find(files.begin(), files.end(), place.file) - files.begin());
    };
    for (const Diagnostic& each : messages) {
        if (each.place.line > 0 && rank(each.place) == files.size()) files.push_back(each.place.file);
    }
    std::stable_sort(messages.begin(), messages.end(), [&rank](const Diagnostic& a, const Diagnostic& b) {
        return std::tuple(rank(a.place), a.place.line, a.place.column) <
               std::tuple(rank(b.place), b.place.line, b.place.column);
    });
}

}  // namespace lobewright::cli
