/// What holds for every text that a target takes, sound or not; broken, it throws std::logic_error.
#pragma once

#include <lobewright/diagnostic.h>

#include <stdexcept>
#include <string>
#include <string_view>

inline void hold(bool fact, std::string_view otherwise) {
    if (!fact) throw std::logic_error(std::string(otherwise));
}

/// Of a refusal: there is an error; every complaint has its code and what is wrong, an error what to do; its
/// place lies within `text` where it is in `file`; what is printed of it holds no control character and no
/// bytes that are none of UTF-8, and takes no more than a few lines.
void hold_complaints(const lobewright::Diagnostics& complaints, const std::string& text,
                     const std::string& file);
/// Likewise of what stands beside a success, which may be nothing.
void hold_remarks(const lobewright::Diagnostics& remarks, const std::string& text, const std::string& file);

/// That no figure of a csv or json text is none.
void hold_figures(const std::string& printed);
