#include "fuzz_promises.h"
#include "fuzz_runs.h"
#include "fuzz_subjects.h"

#include <lobewright/dialect.h>
#include <lobewright/program_reader.h>
#include <lobewright/program_writer.h>

using namespace lobewright;

namespace {

/// A program of the subject in a dialect that was accepted. What such a dialect's own lines do to it nobody
/// knows before: the proof reads them, too.
void write_and_read(const Dialect& dialect, Units units) {
    const Subject& subject = subject_in(units);
    const auto path = plan_toolpath(subject.job, subject.lobes, word_grid(dialect, units));
    if (!path) return hold_complaints(path.diagnostics(), subject_text(), "subject.toml");
    const auto program = write_program(subject.job, subject.lobes, *path, dialect);
    if (!program) return hold_complaints(program.diagnostics(), subject_text(), "subject.toml");
    const auto read = read_program(*program, "written", dialect, units);
    if (!read) hold_complaints(read.diagnostics(), *program, "written");
}

}  // namespace

void run_dialect(const std::string& text, FuzzDepth depth) {
    const Outcome<Dialect> dialect = read_dialect(text, "folder/dialect.toml");
    if (!dialect) return hold_complaints(dialect.diagnostics(), text, "folder/dialect.toml");
    hold_remarks(dialect.diagnostics(), text, "folder/dialect.toml");
    hold(!dialect_summary(*dialect).empty(), "a dialect without a summary");
    if (depth == FuzzDepth::works) write_and_read(*dialect, text.size() % 4 == 0 ? Units::inch : Units::mm);
}
