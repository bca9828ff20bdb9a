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

/// A run through the program, and what the proof keeps of it.
class TalliedRun {
  public:
    TalliedRun(const Job& job, const CutterBody& body, const Dialect& dialect, const std::string& file)
        : run_(file, dialect, job.units, BlockDelete::off), tally_(job, dialect, body) {}

    void take(const ParsedLine& line) {
        if (!run_.over()) run_.take(line, [this](const ReadMove& move) { tally_.take(move); });
    }
    void leave_out_deletable() { run_.set(BlockDelete::on); }
    [[nodiscard]] const ProgramRun& run() const { return run_; }
    ProofReport judge(const Job& job, const std::vector<SolvedLobe>& lobes, const CutterBody& body,
                      const EarlierCuts& earlier) {
        return judge_shaft(job, lobes, body, run_.facts(), tally_, nullptr, earlier);
    }

  private:
    ProgramRun run_;
    ProgramTally tally_;
};

/// Runs through a program in pieces: from its first line that begins with "/" on, with such lines and without
/// them at the same time.
class ProgramRuns {
  public:
    ProgramRuns(const Job& job, const CutterBody& body, const Dialect& dialect, const std::string& file)
        : lines_(dialect), all_(job, body, dialect, file) {}

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

}  // namespace

Outcome<ProofReport> prove(const Job& job, const std::vector<SolvedLobe>& lobes, const Dialect& dialect,
                           const TextPieces& pieces, const std::string& file,
                           const std::vector<EarlierProgram>& earlier) {
    if (Diagnostics unmet = unmet_needs(job, Purpose::prove); !unmet.empty()) return unmet;
    const Outcome<EarlierCuts> cuts = cuts_of(earlier);
    if (!cuts) return cuts.diagnostics();
    const CutterBody body = cutter_body(job);
    ProgramRuns runs(job, body, dialect, file);
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
    ProofReport report = runs.all().judge(job, lobes, body, *cuts);
    if (runs.deleted()) worsen(report, runs.deleted()->judge(job, lobes, body, *cuts));
    return report;
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
