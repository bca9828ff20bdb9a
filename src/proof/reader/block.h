/// One line of a program, cut into words. Nothing here has a meaning yet beyond "which modal group".
#pragma once

#include "proof/reader/code_table.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lobewright::proof {

/// What is wrong with a line: stable code, the complaint, the remedy, and where in the line (bytes from its
/// start).
struct LineFault {
    const char* code = nullptr;
    std::string what;
    std::string remedy;
    std::size_t offset = 0;
};

/// The words of a line. Values of letters that are not there are stale: ask `has` first.
struct Block {
    bool deletable = false;  ///< begins with "/"
    bool percent = false;    ///< the line is "%"
    bool program_number = false;
    int home_line = -1;         ///< which line of the dialect's way home it is; -1: none
    std::uint32_t letters = 0;  ///< bit of each letter that stands there, G and M aside
    std::uint32_t groups = 0;   ///< bit of each modal group
    bool loose_code = false;    ///< has G or M words of no group
    std::array<double, 26> values;
    std::array<std::size_t, 26> letter_offsets;
    std::array<Act, group_count> acts;
    std::array<std::size_t, group_count> group_offsets;

    static constexpr std::uint32_t bit(char letter) { return 1u << (letter - 'A'); }
    static constexpr std::uint32_t bit(Group group) { return 1u << static_cast<unsigned>(group); }
    [[nodiscard]] bool has(char letter) const { return (letters & bit(letter)) != 0; }
    [[nodiscard]] bool has(Group group) const { return (groups & bit(group)) != 0; }
    [[nodiscard]] double value(char letter) const { return values[static_cast<std::size_t>(letter - 'A')]; }
    [[nodiscard]] std::size_t offset(char letter) const {
        return letter_offsets[static_cast<std::size_t>(letter - 'A')];
    }
    [[nodiscard]] Act act(Group group) const { return acts[static_cast<std::size_t>(group)]; }
    [[nodiscard]] std::size_t offset(Group group) const {
        return group_offsets[static_cast<std::size_t>(group)];
    }
    [[nodiscard]] bool has_words() const { return letters != 0 || groups != 0 || loose_code; }
};

/// Cuts lines into blocks. Letters count in either case; blanks count nowhere outside comments, not even
/// within a number (NIST IR 6556 3.3.2).
class BlockReader {
  public:
    explicit BlockReader(const Dialect& dialect);

    /// `line` without its line end. True: `block` holds its words. False: fault() says why not.
    bool read(std::string_view line, Block& block);
    [[nodiscard]] const LineFault& fault() const { return fault_; }

  private:
    bool fail(const char* code, std::string what, std::string remedy, const char* at);
    bool read_words(Block& block);
    bool read_word(Block& block, char letter);
    bool read_g(Block& block, const char* at);
    bool read_m(Block& block, const char* at);
    bool read_number_word(Block& block, char letter, const char* at);
    bool read_program_number(Block& block, const char* at);
    bool put_code(Block& block, Code code, char letter, int tenths, const char* at);
    [[nodiscard]] int home_line_of(std::string_view line) const;
    bool pass_comments();
    bool pass_parentheses();
    bool number(double& value, char letter);
    bool long_number(const char* from, bool negative, double& value, char letter);
    bool bad_character(const char* at);
    bool unknown_letter(char letter, const char* at);
    void pass_blanks() {
        while (at_ != end_ && (*at_ == ' ' || *at_ == '\t'))
            ++at_;
    }

    CodeTable codes_;
    CommentStyle comments_;
    char decimal_mark_;
    std::vector<std::string> home_;  // without blanks, in capitals
    std::size_t longest_line_;
    std::uint32_t known_letters_;
    const char* begin_ = nullptr;
    const char* at_ = nullptr;
    const char* end_ = nullptr;
    int m_words_ = 0;
    LineFault fault_;
};

}  // namespace lobewright::proof
