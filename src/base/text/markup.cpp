#include "base/text/markup.h"

namespace lobewright {

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        if (c == '&') {
            safe += "&amp;";
        } else if (c == '<') {
            safe += "&lt;";
        } else if (c == '>') {
            safe += "&gt;";
        } else if (c == '"') {
            safe += "&quot;";
        } else if (static_cast<unsigned char>(c) >= 0x20 || c == '\t' || c == '\n') {
            safe += c;
        }
    }
    return safe;
}

}  // namespace lobewright
