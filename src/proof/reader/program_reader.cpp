#include "proof/reader/line_cutter.h"
#include "proof/reader/program_run.h"

#include <lobewright/program_reader.h>

#include <algorithm>

namespace lobewright {

Outcome<ReadProgram> read_program(std::string_view text, const std::string& file, const Dialect& dialect,
                                  Units units, BlockDelete block_delete) {
    using namespace proof;
    LineParser lines(dialect);
    ProgramRun run(file, dialect, units, block_delete);
    ReadProgram program;
    program.moves.reserve(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')));
    const TakeMove keep = [&](const ReadMove& move) { program.moves.push_back(move); };
    const auto take = [&](std::string_view line) {
        run.take(lines.parse(line), keep);
        return !run.over();
    };
    LineCutter cutter;
    if (cutter.cut(text, take)) cutter.finish(take);
    if (!run.errors().empty()) return run.errors();
    static_cast<ProgramFacts&>(program) = run.facts();
    return program;
}

}  // namespace lobewright
