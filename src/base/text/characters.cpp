#include "base/text/characters.h"

#include <algorithm>

namespace lobewright {
namespace {

constexpr unsigned byte_at(std::string_view text, std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u;
}

/// Required: `sequence` is one sequence of UTF-8.
unsigned code_of(std::string_view sequence) {
    const unsigned first = byte_at(sequence, 0);
    if (sequence.size() == 1) return first;
    unsigned code = first & (0x7Fu >> sequence.size());
    for (std::size_t i = 1; i < sequence.size(); ++i)
        code = (code << 6u) | (byte_at(sequence, i) & 0x3Fu);
    return code;
}

/// Unicode's category Cc, the ends of lines and paragraphs, and the marks that turn the direction of writing
/// (Unicode Standard Annex 9, 2).
bool hidden(unsigned code) {
    return code < 0x20u || (code >= 0x7Fu && code < 0xA0u) || (code >= 0x200Eu && code <= 0x200Fu) ||
           (code >= 0x2028u && code <= 0x202Eu) || (code >= 0x2066u && code <= 0x2069u);
}

std::string hexadecimal(unsigned code, int digits) {
    std::string text;
    for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4)
        text += "0123456789ABCDEF"[(code >> static_cast<unsigned>(shift)) & 0xFu];
    return text;
}

std::string blanks_to(std::string_view text, std::size_t width) {
    const std::size_t size = characters(text);
    return std::string(width > size ? width - size : 0, ' ');
}

}  // namespace

std::size_t sequence_length(std::string_view text) {
    const auto follows = [&](std::size_t i) { return (byte_at(text, i) & 0xC0u) == 0x80u; };
    const unsigned first = byte_at(text, 0), second = byte_at(text, 1);
    if (first < 0x80u) return 1;
    if (first >= 0xC2u && first <= 0xDFu) return follows(1) ? 2 : 0;
    if (first >= 0xE0u && first <= 0xEFu) {
        if ((first == 0xE0u && second < 0xA0u) || (first == 0xEDu && second > 0x9Fu)) return 0;
        return follows(1) && follows(2) ? 3 : 0;
    }
    if (first >= 0xF0u && first <= 0xF4u) {
        if ((first == 0xF0u && second < 0x90u) || (first == 0xF4u && second > 0x8Fu)) return 0;
        return follows(1) && follows(2) && follows(3) ? 4 : 0;
    }
    return 0;
}

std::size_t characters(std::string_view text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string flush_right(std::string_view text, std::size_t width) {
    return blanks_to(text, width).append(text);
}

std::string flush_left(std::string_view text, std::size_t width) {
    return std::string(text) + blanks_to(text, width);
}

std::string printable(std::string_view text) {
    std::string shown;
    while (!text.empty()) {
        const std::size_t length = sequence_length(text);
        if (length == 0) {
            shown += "\\x" + hexadecimal(byte_at(text, 0), 2);
        } else if (const unsigned code = code_of(text.substr(0, length)); hidden(code)) {
            shown += "\\u" + hexadecimal(code, 4);
        } else {
            shown += text.substr(0, length);
        }
        text.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return shown;
}

bool is_printable(std::string_view text) {
    return printable(text) == text;
}

}  // namespace lobewright
