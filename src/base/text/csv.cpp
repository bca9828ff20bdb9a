#include "base/text/csv.h"

namespace lobewright {

std::string csv_field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + '"';
}

std::string csv_line(const std::vector<std::string>& fields) {
    std::string line;
    for (const std::string& field : fields)
        line += (&field == &fields.front() ? "" : ",") + csv_field(field);
    return line + '\n';
}

}  // namespace lobewright
