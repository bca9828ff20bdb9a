#include "fuzz_promises.h"
#include "fuzz_runs.h"
#include "fuzz_subjects.h"

#include <lobewright/program_reader.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <cmath>

using namespace lobewright;

namespace {

constexpr std::size_t most_proven = 60;  // moves: a millisecond or two

const Dialect& dialect_of(const HeadedText& program) {
    for (const SpokenDialect& each : spoken_dialects())
        if (chosen(program, each.name)) return each.dialect;
    return spoken_dialects().front().dialect;
}

void hold_moves(const ReadProgram& program, int lines) {
    int line = 0;
    for (const ReadMove& move : program.moves) {
        hold(move.line >= line && move.line <= lines, "a move's line is out of order");
        line = move.line;
        hold(std::isfinite(move.seconds) && move.seconds >= 0.0, "a move has no time");
        hold(!std::isinf(move.radial) && !std::isinf(move.axial) && !std::isinf(move.rotary),
             "a move goes beyond all places");
    }
}

/// As it is read with the switch for "/" in that place; how many moves, where it is accepted.
std::optional<std::size_t> read_with(const HeadedText& program, Units units, BlockDelete block_delete) {
    const auto read = read_program(program.text, "program.ngc", dialect_of(program), units, block_delete);
    if (!read) {
        hold_complaints(read.diagnostics(), program.text, "program.ngc");
        return std::nullopt;
    }
    hold_moves(*read, 1 + static_cast<int>(std::count(program.text.begin(), program.text.end(), '\n')));
    return read->moves.size();
}

void prove_it(const HeadedText& program, Units units) {
    const Subject& subject = subject_in(units);
    const auto report = prove(subject.job, subject.lobes, dialect_of(program), program.text, "program.ngc");
    if (!report) return hold_complaints(report.diagnostics(), program.text, "program.ngc");
    hold_remarks(report->findings, program.text, "program.ngc");
    hold(!proof_text(subject.job, *report, program.text).empty(), "a proof says nothing");
    hold_figures(proof_json(subject.job, *report));
    for (const LobeVerdict& lobe : report->lobes)
        hold(!report->within_tolerance || lobe.within, "within tolerance, but a lobe is not");
}

}  // namespace

void run_program_text(const std::string& text, FuzzDepth depth) {
    const HeadedText program = headed(text);
    const Units units = chosen(program, "inch") ? Units::inch : Units::mm;
    const auto off = read_with(program, units, BlockDelete::off);
    const auto on = read_with(program, units, BlockDelete::on);
    if (depth == FuzzDepth::reads) return;
    if (off && on && *off <= most_proven && *on <= most_proven) prove_it(program, units);
}
