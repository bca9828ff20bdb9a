#include "proof/reader/program_run.h"

#include "base/text/characters.h"

#include <utility>

namespace lobewright::proof {
namespace {

int column_of(std::string_view line, std::size_t offset) {
    return 1 + static_cast<int>(characters(line.substr(0, offset)));
}

}  // namespace

void ProgramRun::take(const ParsedLine& line, const TakeMove& moves) {
    const Block& block = line.block;
    if (controller_.goes_home(block)) {
        started_ = true;
        ++facts_.blocks;
        return controller_.go_home(block, line.number, moves);
    }
    if (line.fault != nullptr) return complain(*line.fault, line);
    if (block.percent) return percent(line);
    if (!block.has_words()) return;
    started_ = true;
    ++facts_.blocks;
    if (block.deletable) {
        facts_.deletable = true;
        if (block_delete_ == BlockDelete::on) return;
    }
    if (!controller_.run(block, line.number, facts_, moves)) return complain(controller_.fault(), line);
    if (controller_.state().operation > static_cast<int>(before_.size())) begin_operation();
    facts_.ended = done_ = controller_.state().ended;
}

/// The block that changes the tool is the next one's first.
void ProgramRun::begin_operation() {
    ProgramFacts next;
    next.blocks = 1;
    next.spindle_speed = facts_.spindle_speed;
    next.tool_changes = {facts_.tool_changes.back()};
    --facts_.blocks;
    facts_.tool_changes.pop_back();
    facts_.ended = true;
    before_.push_back(std::exchange(facts_, next));
}

/// The first % opens the program, before any word; the second closes it.
void ProgramRun::percent(const ParsedLine& line) {
    if (open_) {
        done_ = true;
    } else if (started_) {
        complain(
            {"stray-percent", "% closes a program that no % opened", "end the program with M2 or M30", 0},
            line);
    } else {
        open_ = started_ = true;
    }
}

void ProgramRun::complain(const LineFault& fault, const ParsedLine& line) {
    errors_.push_back({Fault::bad_input, Severity::error, fault.code, fault.what, fault.remedy,
                       Place{file_, line.number, column_of(line.text, fault.offset)}});
}

}  // namespace lobewright::proof
