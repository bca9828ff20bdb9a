#include "proof/judge/shaft_proof.h"
#include "proof/judge/surface_around.h"
#include "proof/reader/line_cutter.h"
#include "proof/reader/program_run.h"

#include <lobewright/needs.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace lobewright {
namespace {

using namespace proof;

/// The worse of two verdicts on one lobe, each deviation for itself.
void worsen(LobeVerdict& lobe, const LobeVerdict& other) {
    if (other.deepest.along_normal < lobe.deepest.along_normal) lobe.deepest = other.deepest;
    if (other.proudest.along_normal > lobe.proudest.along_normal) lobe.proudest = other.proudest;
    proof::worsen(lobe.around, other.around);
    if (other.heel_runout) lobe.heel_runout = std::max(*lobe.heel_runout, *other.heel_runout);
    lobe.cut = lobe.cut && other.cut;
    lobe.within = lobe.within && other.within;
}

void worsen(ProofReport& report, const ProofReport& deleted) {
    for (std::size_t i = 0; i < report.lobes.size(); ++i)
        worsen(report.lobes[i], deleted.lobes[i]);
    report.within_tolerance = report.within_tolerance && deleted.within_tolerance;
    report.resolution = std::max(report.resolution, deleted.resolution);
    report.blending = std::max(report.blending, deleted.blending);
    report.rapids_in_stock = std::max(report.rapids_in_stock, deleted.rapids_in_stock);
    if (deleted.largest_depth > report.largest_depth) {
        report.largest_depth = deleted.largest_depth;
        report.largest_depth_line = deleted.largest_depth_line;
    }
    if (report.thickest_chip) report.thickest_chip = std::max(report.thickest_chip, deleted.thickest_chip);
    report.ends_clear = report.ends_clear && deleted.ends_clear;
    for (Diagnostic finding : deleted.findings) {
        finding.what = "with block delete on: " + finding.what;
        report.findings.push_back(std::move(finding));
    }
}

/// One operation of the program, with its cutter.
struct CutWithBody {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    CutterBody body;
};
using CutsWithBodies = std::vector<CutWithBody>;

/// A run through the program, and what the proof keeps of it.
class TalliedRun {
  public:
    TalliedRun(const CutsWithBodies& cuts, const Dialect& dialect, const std::string& file)
        : cuts_(cuts), run_(file, dialect, cuts.front().job.units, BlockDelete::off, cuts.size()) {
        for (const CutWithBody& cut : cuts)
            tallies_.emplace_back(cut.job, dialect, cut.body, &cut == &cuts.front());
    }

    void take(const ParsedLine& line) {
        if (run_.over()) return;
        run_.take(line, [this](const ReadMove& move) {
            tallies_[static_cast<std::size_t>(move.operation)].take(move);
        });
    }
    void leave_out_deletable() { run_.set(BlockDelete::on); }
    [[nodiscard]] const ProgramRun& run() const { return run_; }

    /// Each on what `earlier` and those before it leave.
    std::vector<ProofReport> judge(EarlierCuts earlier) {
        std::vector<ProofReport> reports;
        for (std::size_t i = 0; i < cuts_.size(); ++i) {
            const auto& [job, lobes, body] = cuts_[i];
            reports.push_back(judge_shaft(job, lobes, body, facts(i), tallies_[i], nullptr, earlier));
            if (i + 1 < cuts_.size())
                earlier.push_back(std::make_shared<const EarlierCut>(body, tallies_[i].builder.moves(),
                                                                     0.5 * *job.shaft.blank()));
        }
        return reports;
    }

  private:
    /// Of an operation that the program never comes to: nothing but its end.
    [[nodiscard]] ProgramFacts facts(std::size_t operation) const {
        const std::vector<ProgramFacts>& before = run_.facts_before();
        if (operation < before.size()) return before[operation];
        if (operation == before.size()) return run_.facts();
        ProgramFacts none;
        none.ended = true;
        return none;
    }

    const CutsWithBodies& cuts_;
    ProgramRun run_;
    std::vector<ProgramTally> tallies_;
};

/// Runs through a program in pieces: from its first line that begins with "/" on, with such lines and without
/// them at the same time.
class ProgramRuns {
  public:
    ProgramRuns(const CutsWithBodies& cuts, const Dialect& dialect, const std::string& file)
        : lines_(dialect), all_(cuts, dialect, file) {}

    /// False: nothing of what follows would be read.
    bool take_piece(std::string_view piece) {
        return cutter_.cut(piece, [this](std::string_view line) { return take(line); });
    }
    void finish() {
        cutter_.finish([this](std::string_view line) { return take(line); });
    }

    [[nodiscard]] TalliedRun& all() { return all_; }
    /// Without the lines that begin with "/", if there are any.
    [[nodiscard]] std::optional<TalliedRun>& deleted() { return deleted_; }

  private:
    bool take(std::string_view text) {
        const ParsedLine line = lines_.parse(text);
        if (!deleted_ && line.fault == nullptr && line.block.deletable && line.block.has_words()) {
            deleted_.emplace(all_);
            deleted_->leave_out_deletable();
        }
        all_.take(line);
        if (deleted_) deleted_->take(line);
        return !all_.run().over() || (deleted_ && !deleted_->run().over());
    }

    LineCutter cutter_;
    LineParser lines_;
    TalliedRun all_;
    std::optional<TalliedRun> deleted_;
};

/// Their moves, each with its own cutter.
Outcome<EarlierCuts> cuts_of(const std::vector<EarlierProgram>& programs) {
    EarlierCuts cuts;
    for (const EarlierProgram& each : programs) {
        if (Diagnostics unmet = unmet_needs(each.job, Purpose::prove); !unmet.empty()) return unmet;
        const std::string name = "the program of operation " + each.job.operation;
        const Outcome<ReadProgram> read = read_program(each.text, name, each.dialect, each.job.units);
        if (!read) return read.diagnostics();
        const CutterBody body = cutter_body(each.job);
        cuts.push_back(std::make_shared<const EarlierCut>(body, shaft_moves(*read, body),
                                                          0.5 * *each.job.shaft.blank()));
    }
    return cuts;
}

/// Reads to the program's end, or as far as it can be read.
Outcome<bool> run_through(ProgramRuns& runs, const TextPieces& pieces) {
    for (bool on = true; on;) {
        const Outcome<std::string_view> piece = pieces();
        if (!piece) return piece.diagnostics();
        if (piece->empty()) {
            runs.finish();
            break;
        }
        on = runs.take_piece(*piece);
    }
    for (const TalliedRun* each : {&runs.all(), runs.deleted() ? &*runs.deleted() : nullptr}) {
        if (each != nullptr && !each->run().errors().empty()) return each->run().errors();
    }
    return true;
}

Outcome<std::vector<ProofReport>> prove_cuts(const CutsWithBodies& cuts, const Dialect& dialect,
                                             const TextPieces& pieces, const std::string& file,
                                             const std::vector<EarlierProgram>& earlier) {
    const Outcome<EarlierCuts> before = cuts_of(earlier);
    if (!before) return before.diagnostics();
    ProgramRuns runs(cuts, dialect, file);
    const Outcome<bool> read = run_through(runs, pieces);
    if (!read) return read.diagnostics();
    std::vector<ProofReport> reports = runs.all().judge(*before);
    if (!runs.deleted()) return reports;
    const std::vector<ProofReport> deleted = runs.deleted()->judge(*before);
    for (std::size_t i = 0; i < reports.size(); ++i)
        worsen(reports[i], deleted[i]);
    return reports;
}

}  // namespace

Outcome<std::vector<ProofReport>> prove_operations(const std::vector<OperationCut>& operations,
                                                   const Dialect& dialect, const TextPieces& pieces,
                                                   const std::string& file,
                                                   const std::vector<EarlierProgram>& earlier) {
    CutsWithBodies cuts;
    for (const OperationCut& each : operations) {
        if (Diagnostics unmet = unmet_needs(each.job, Purpose::prove); !unmet.empty()) return unmet;
        cuts.push_back({each.job, each.lobes, cutter_body(each.job)});
    }
    return prove_cuts(cuts, dialect, pieces, file, earlier);
}

Outcome<ProofReport> prove(const Job& job, const std::vector<SolvedLobe>& lobes, const Dialect& dialect,
                           const TextPieces& pieces, const std::string& file,
                           const std::vector<EarlierProgram>& earlier) {
    if (Diagnostics unmet = unmet_needs(job, Purpose::prove); !unmet.empty()) return unmet;
    Outcome<std::vector<ProofReport>> reports =
        prove_cuts({{job, lobes, cutter_body(job)}}, dialect, pieces, file, earlier);
    if (!reports) return reports.diagnostics();
    return std::move(std::move(reports).value().front());
}

Outcome<ProofReport> prove(const Job& job, const std::vector<SolvedLobe>& lobes, const Dialect& dialect,
                           const std::string& text, const std::string& file,
                           const std::vector<EarlierProgram>& earlier) {
    return prove(job, lobes, dialect, pieces_of(text), file, earlier);
}

TextPieces pieces_of(std::string_view text) {
    return [rest = text]() mutable -> Outcome<std::string_view> {
        return std::exchange(rest, std::string_view{});
    };
}

}  // namespace lobewright
