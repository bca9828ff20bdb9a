/// A text line by line.
#pragma once

#include <sstream>
#include <string>
#include <vector>

/// Without their ends, be they LF or CR LF.
inline std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        if (!line.empty() && line.back() == '\r') line.pop_back();
        lines.push_back(line);
    }
    return lines;
}
