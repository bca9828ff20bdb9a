#include "proof/judge/shaft_proof.h"

#include "proof/judge/lobe_judge.h"

#include <algorithm>

namespace lobewright::proof {
namespace {

double clear_of_all(const Job& job) {
    double clear = 0.5 * *job.shaft.blank();
    for (const Journal& journal : job.shaft.journals)
        clear = std::max(clear, 0.5 * journal.diameter);
    return clear;
}

const Cutter& cutter_of(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second;
}

/// mm of radius that a wheel has lost when it comes to this lobe: wear on each that lies before it along the
/// shaft.
double lost_before(const Job& job, const std::vector<SolvedLobe>& lobes, const SolvedLobe& lobe) {
    const Cutter& wheel = cutter_of(job);
    const auto before = std::count_if(lobes.begin(), lobes.end(), [&](const SolvedLobe& other) {
        return other.z < lobe.z || (other.z == lobe.z && &other < &lobe);
    });
    return wheel.wear_per_lobe.value_or(0.0) * static_cast<double>(before);
}

/// What the words say, whatever the cutter leaves.
void judge_words(const ProgramFacts& facts, const ProgramTally& tally, Findings& findings) {
    findings.append(tally.spindle.findings());
    if (!facts.ended) findings.error("not-ended", 0, FindingWords::not_ended());
    if (tally.builder.blind_line() > 0)
        findings.error("blind-move", tally.builder.blind_line(), FindingWords::blind_move());
    if (tally.builder.home_line() > 0)
        findings.error("home-from-within", tally.builder.home_line(), FindingWords::home_from_within());
    if (facts.unbounded_blend_line > 0)
        findings.error("blend-unbounded", facts.unbounded_blend_line, FindingWords::unbounded_blend());
    const ShaftMoves& moves = tally.builder.moves();
    for (int i = 0; i < moves.size(); ++i) {
        if (moves[i].least_tip() > 0.0) continue;
        findings.error("past-axis", moves.line(i), FindingWords::past_axis());
        break;
    }
}

WantedSetup setup_of(const Job& job, const Dialect& dialect, const CutterBody& body, bool first) {
    WantedSetup wanted =
        wanted_setup(job, dialect, clear_of_all(job) + job.cut->clearance, body.tip_from_word);
    wanted.must_change = !first;
    return wanted;
}

}  // namespace

ProgramTally::ProgramTally(const Job& job, const Dialect& dialect, const CutterBody& body, bool first)
    : builder(body, clear_of_all(job)),
      limits(job.machine->limits, dialect.radial.diameter, dialect.rotary_range == RotaryRange::folded,
             job.units),
      setup(setup_of(job, dialect, body, first), job.units),
      spindle(job.cut->spindle_speed, cutter_of(job), job.units),
      cycle(job.machine->limits) {}

void ProgramTally::take(const ReadMove& move) {
    builder.take(move);
    limits.take(move);
    setup.take(move);
    spindle.take(move);
    cycle.take(move);
}

ProofReport judge_shaft(const Job& job, const std::vector<SolvedLobe>& lobes, const CutterBody& body,
                        const ProgramFacts& facts, ProgramTally& tally, ProofWork* work,
                        const EarlierCuts& earlier) {
    Findings findings(job.units);
    judge_words(facts, tally, findings);
    const ShaftMoves& moves = tally.builder.moves();
    StockChecker stock_checker(moves, body, 0.5 * *job.shaft.blank());
    TakenStock taken_stock(job, moves, body, tally.builder.dwells());
    LobeJudge judge(job, body, moves, facts.blend_tolerance, earlier, stock_checker, taken_stock, findings);
    ProofReport report;
    for (const SolvedLobe& lobe : lobes)
        report.lobes.push_back(judge.judge(lobe, lost_before(job, lobes, lobe)));
    report.tolerance = job.cut->tolerance;
    report.resolution = judge.resolution();
    report.blending = facts.blend_tolerance;
    report.blocks = facts.blocks;
    report.cycle_seconds =
        tally.cycle.seconds(facts.blend_tolerance == 0.0 && facts.unbounded_blend_line == 0);
    report.within_tolerance = std::all_of(report.lobes.begin(), report.lobes.end(),
                                          [](const LobeVerdict& lobe) { return lobe.within; });
    report.rapids_in_stock = stock_checker.report(findings);
    taken_stock.report(findings);
    report.largest_depth = taken_stock.largest_depth();
    report.largest_depth_line = taken_stock.largest_depth_line();
    report.thickest_chip = taken_stock.thickest_chip();
    check_journals(moves, body, job.shaft, findings);
    findings.append(tally.limits.finish());
    findings.append(tally.setup.finish(facts));
    report.ends_clear = tally.setup.ends_clear();
    report.findings = findings.sorted();
    if (work != nullptr) {
        work->moves += judge.cutting_moves().looked_at();
        for (const LobeVerdict& lobe : report.lobes)
            work->planes += lobe.planes;
    }
    return report;
}

}  // namespace lobewright::proof
