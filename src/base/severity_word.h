/// Severities in words.
#pragma once

#include <lobewright/diagnostic.h>

namespace lobewright {

/// "error", "warning", "note".
constexpr const char* severity_word(Severity severity) {
    switch (severity) {
        case Severity::error:
            return "error";
        case Severity::warning:
            return "warning";
        case Severity::note:
            break;
    }
    return "note";
}

}  // namespace lobewright
