#include "base/text/characters.h"
#include "proof/block.h"
#include "proof/modal_state.h"

#include <lobewright/program_reader.h>

#include <algorithm>

namespace lobewright {
namespace {

using namespace proof;

constexpr std::size_t most_errors = 100;

int column_of(std::string_view line, std::size_t offset) {
    return 1 + static_cast<int>(characters(line.substr(0, offset)));
}

class ProgramReader {
  public:
    ProgramReader(const std::string& file, const Dialect& dialect, Units units, BlockDelete block_delete)
        : file_(file),
          blocks_(dialect),
          controller_(dialect, units),
          delete_on_(block_delete == BlockDelete::on) {}

    Outcome<ReadProgram> read(std::string_view text) {
        program_.moves.reserve(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')));
        int number = 0;
        while (!text.empty() && !done_ && errors_.size() < most_errors) {
            const std::size_t end = std::min(text.find('\n'), text.size());
            std::string_view line = text.substr(0, end);
            if (!line.empty() && line.back() == '\r' && end < text.size()) line.remove_suffix(1);
            read_line(line, ++number);
            text.remove_prefix(std::min(end + 1, text.size()));
        }
        if (!errors_.empty()) return std::move(errors_);
        return std::move(program_);
    }

  private:
    void read_line(std::string_view line, int number) {
        if (!blocks_.read(line, block_)) return complain(blocks_.fault(), line, number);
        if (block_.percent) return percent(line, number);
        if (!block_.has_words()) return;
        started_ = true;
        ++program_.blocks;
        if (block_.deletable) {
            program_.deletable = true;
            if (delete_on_) return;
        }
        if (!controller_.run(block_, number, program_)) return complain(controller_.fault(), line, number);
        program_.ended = done_ = controller_.state().ended;
    }

    /// The first % opens the program, before any word; the second closes it.
    void percent(std::string_view line, int number) {
        if (open_) {
            done_ = true;
        } else if (started_) {
            complain(
                {"stray-percent", "% closes a program that no % opened", "end the program with M2 or M30", 0},
                line, number);
        } else {
            open_ = started_ = true;
        }
    }

    void complain(const LineFault& fault, std::string_view line, int number) {
        errors_.push_back({Fault::bad_input, Severity::error, fault.code, fault.what, fault.remedy,
                           Place{file_, number, column_of(line, fault.offset)}});
    }

    const std::string& file_;
    BlockReader blocks_;
    Controller controller_;
    bool delete_on_;
    bool started_ = false, open_ = false, done_ = false;
    Block block_;
    ReadProgram program_;
    Diagnostics errors_;
};

}  // namespace

Outcome<ReadProgram> read_program(std::string_view text, const std::string& file, const Dialect& dialect,
                                  Units units, BlockDelete block_delete) {
    return ProgramReader(file, dialect, units, block_delete).read(text);
}

}  // namespace lobewright
