/// One run through a program, as a controller makes it, line by line.
#pragma once

#include "proof/reader/block.h"
#include "proof/reader/controller.h"

#include <lobewright/program_reader.h>

namespace lobewright::proof {

/// A line cut into words; `fault` where it can't be.
struct ParsedLine {
    std::string_view text;
    int number = 0;  ///< from 1
    const Block& block;
    const LineFault* fault = nullptr;
};

/// Cuts a program's lines into words, one after the other.
class LineParser {
  public:
    explicit LineParser(const Dialect& dialect) : blocks_(dialect) {}

    /// The next line; it is valid until the one after it.
    ParsedLine parse(std::string_view text) {
        const bool readable = blocks_.read(text, block_);
        return {text, ++number_, block_, readable ? nullptr : &blocks_.fault()};
    }

  private:
    BlockReader blocks_;
    Block block_;
    int number_ = 0;
};

/// A copy of a run goes on from where the run stood.
class ProgramRun {
  public:
    /// `operations`: how many the program may make.
    ProgramRun(std::string file, const Dialect& dialect, Units units, BlockDelete block_delete,
               std::size_t operations = 1)
        : file_(std::move(file)), controller_(dialect, units, operations), block_delete_(block_delete) {}

    void take(const ParsedLine& line, const TakeMove& moves);
    void set(BlockDelete block_delete) { block_delete_ = block_delete; }
    /// What follows is not read: the program has ended, or has too many errors.
    [[nodiscard]] bool over() const { return done_ || errors_.size() >= most_errors; }
    /// Of the operation that the run has come to.
    [[nodiscard]] const ProgramFacts& facts() const { return facts_; }
    /// Of those before it, in their order: they end where the tool is changed.
    [[nodiscard]] const std::vector<ProgramFacts>& facts_before() const { return before_; }
    [[nodiscard]] const Diagnostics& errors() const { return errors_; }

  private:
    static constexpr std::size_t most_errors = 100;

    void percent(const ParsedLine& line);
    void begin_operation();
    void complain(const LineFault& fault, const ParsedLine& line);

    std::string file_;
    Controller controller_;
    BlockDelete block_delete_;
    bool started_ = false, open_ = false, done_ = false;
    ProgramFacts facts_;
    std::vector<ProgramFacts> before_;
    Diagnostics errors_;
};

}  // namespace lobewright::proof
