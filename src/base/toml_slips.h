/// What is wrong with a line that can't be read as TOML, in words for someone who has never heard of TOML.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright {

struct TomlSlip {
    int line = 0;    ///< from 1
    int column = 0;  ///< in characters, from 1
    std::string code;
    std::string what;
    std::string remedy;
    std::string cause;                       ///< the key or the table that it is about: Diagnostic::cause
    std::optional<std::string> mended = {};  ///< the line so that the rest can be read; nothing: it can't be
};

/// Stands in a mended line for a value that is broken: a date, which no key of ours wants.
inline constexpr std::string_view broken_value = "0001-01-01";

/// A text line by line, as it is written and as it is mended so that the rest can be read.
class TomlLines {
  public:
    explicit TomlLines(std::string_view text);

    /// Puts those of `lists` that stand in single brackets, as [lobe], into double ones; a slip for each.
    std::vector<TomlSlip> double_brackets(const std::vector<std::string>& lists);
    /// Whether `name` is one of those lists.
    [[nodiscard]] bool is_list(const std::string& name) const;
    /// False if the slip's line can't be mended, or was before.
    bool mend(const TomlSlip& slip);

    /// Of line `number`, from 1; empty where there is none.
    [[nodiscard]] std::string_view written(int number) const;
    [[nodiscard]] std::string_view mended(int number) const;
    [[nodiscard]] bool is_mended(int number) const;
    /// The whole text as mended.
    [[nodiscard]] std::string text() const;

  private:
    struct Line {
        std::string_view written;
        std::optional<std::string> mended;
    };
    [[nodiscard]] const Line* find(int number) const;

    std::vector<Line> lines_;
    std::vector<std::string> lists_;
};

/// What is wrong where reading stopped: at the column, in characters, of the line. `repeated`: what stands
/// there is there already.
TomlSlip find_slip(const TomlLines& lines, int line, int column, bool repeated);

}  // namespace lobewright
