#include "cli/complaints.h"

#include "base/text/json_text.h"

#include <optional>

namespace lobewright::cli {
namespace {

template <class T>
std::optional<T> known(const T& value) {
    return value == T{} ? std::nullopt : std::optional(value);
}

}  // namespace

std::string complaints_json(const Diagnostics& messages) {
    JsonText json;
    json.object().array("complaints");
    for (const Diagnostic& each : messages) {
        json.object({}, JsonText::Layout::one_line)
            .member("severity", severity_word(each.severity))
            .member("code", each.code)
            .member("file", known(each.place.file))
            .member("line", known(each.place.line))
            .member("column", known(each.place.column))
            .member("message", each.what)
            .member("remedy", known(each.remedy))
            .end();
    }
    json.end().end();
    return json.text();
}

}  // namespace lobewright::cli
