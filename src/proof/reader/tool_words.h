/// What a dialect's lines about the cutter say of its number and its length's.
#pragma once

#include <lobewright/dialect.h>

#include <optional>

namespace lobewright::proof {

/// How tools and lengths are named, as read from the dialect's own lines.
struct ToolWords {
    explicit ToolWords(const Dialect& dialect);

    bool named = false;          ///< the tool's number stands in the lines
    bool lengths = false;        ///< so does its length's: moves count only with the length on
    bool changed_by_t = false;   ///< the T word changes the tool; else it waits for its M word
    bool length_in_t = false;    ///< the last two digits of T are the length's number
    char length_letter = '\0';   ///< of the length's number, where T doesn't hold it
    bool letter_alone = false;   ///< that letter needs no G word beside it
    std::optional<int> on_word;  ///< tenths of the G word that puts a length on

    /// The tool and the length that a T word chooses; no length where T doesn't hold it.
    struct Chosen {
        int tool = 0;
        std::optional<int> length;
    };
    [[nodiscard]] Chosen chosen(double t) const;
};

}  // namespace lobewright::proof
