#include "proof/between_places.h"
#include "proof/findings.h"
#include "proof/limit_checks.h"
#include "proof/lobe_planes.h"
#include "proof/plane_verdict.h"
#include "proof/stock_checks.h"
#include "proof/surface_feed.h"

#include <lobewright/needs.h>
#include <lobewright/proof.h>

#include <algorithm>
#include <cmath>

namespace lobewright {
namespace {

using namespace proof;

/// What arithmetic may add to a deviation that the program meant to lie on the tolerance, mm.
constexpr double arithmetic = 1e-6;

/// Planes nearer to each other than this show the same ridge, mm: along the shaft its flanks rise by less
/// than 1 in 2.
constexpr double same_plane = 2e-5;

double clear_of_all(const Job& job) {
    double clear = 0.5 * *job.shaft.blank_diameter;
    for (const Journal& journal : job.shaft.journals)
        clear = std::max(clear, 0.5 * journal.diameter);
    return clear;
}

class Prover {
  public:
    Prover(const Job& job, const std::vector<SolvedLobe>& lobes, const ReadProgram& program,
           const CutterBody& body)
        : job_(job),
          lobes_(lobes),
          program_(program),
          body_(body),
          findings_(job.units),
          stock_(0.5 * *job.shaft.blank_diameter) {}

    ProofReport prove() {
        const ShaftMoves made = shaft_moves(program_, body_, clear_of_all(job_));
        moves_ = made.moves;
        finishes_.resize(moves_.size());
        report_.tolerance = job_.cut->tolerance;
        report_.resolution = resolution;
        report_.blending = program_.blend_tolerance;
        report_.blocks = program_.blocks;
        report_.cycle_seconds = cycle_seconds(program_, job_.machine->limits);
        judge_words(made.blind);
        StockChecker stock_checker(moves_, body_, stock_);
        for (const SolvedLobe& lobe : lobes_) {
            report_.lobes.push_back(
                judge_lobe(lobe_planes(lobe, job_.cut->allowance, moves_, body_, stock_), stock_checker));
        }
        report_.within_tolerance = std::all_of(report_.lobes.begin(), report_.lobes.end(),
                                               [](const LobeVerdict& lobe) { return lobe.within; });
        report_.rapids_in_stock = stock_checker.report(findings_);
        check_journals(moves_, body_, job_.shaft, findings_);
        check_limits(program_, job_.machine->limits, findings_);
        report_.findings = findings_.sorted();
        return std::move(report_);
    }

  private:
    void judge_words(int blind) {
        const Cutter& cutter = job_.cutters.find(job_.cut->cutter)->second;
        check_spindle_words(program_, job_.cut->spindle_speed, cutter.teeth, findings_);
        if (!program_.ended)
            findings_.error("not-ended", 0, "the program has no end (M2 or M30): part of it may be lost");
        if (blind > 0) {
            findings_.error(
                "blind-move", blind,
                "the cutter moves here while it is unknown whether it stands clear of the shaft: move the "
                "radial axis out first");
        }
        if (program_.unbounded_blend_line > 0) {
            findings_.error("blend-unbounded", program_.unbounded_blend_line,
                            "path blending without a tolerance: what the controller cuts can't be known");
        }
        for (const ShaftMove& move : moves_) {
            if (move.least_tip() > 0.0) continue;
            findings_.error("past-axis", move.line, "the cutter moves past the shaft's axis");
            break;
        }
    }

    LobeVerdict judge_lobe(const LobePlanes& lobe, StockChecker& stock_checker) {
        LobeVerdict verdict;
        verdict.name = lobe.lobe->name;
        verdict.cut = true;
        std::fill(finishes_.begin(), finishes_.end(), char{0});
        int coarse = 0;
        for (const double z : lobe.zs) {
            const PlaneSweep plane(moves_, body_.cutting, z, stock_);
            take_plane(plane, lobe, verdict);
            stock_checker.look_at(plane, lobe);
            if (coarse == 0) coarse = plane.coarse_line();
        }
        if (!lobe.complete) {
            findings_.error("cannot-simulate", 0,
                            "the cutter stands at so many places along lobe " + verdict.name +
                                " that more than " + std::to_string(most_planes) +
                                " planes would have to be compared");
        }
        if (!body_.along_shaft) look_between_places(lobe, verdict);
        if (coarse > 0) {
            findings_.error(
                "cannot-simulate", coarse,
                "the cutter moves along the shaft and otherwise in one block where its section changes along "
                "the shaft: write the two motions in blocks of their own");
        }
        check_surface_feed(moves_, finishes_, lobe, body_.cutting, job_.cut->surface_feed, findings_);
        report_lobe(verdict);
        return verdict;
    }

    /// Judges one plane more, into the lobe's verdict; gives its proudest place.
    PlaneExtreme take_plane(const PlaneSweep& plane, const LobePlanes& lobe, LobeVerdict& verdict) {
        const PlaneVerdict judged =
            judge_plane(plane, lobe.design, lobe.rays, job_.cut->tolerance, finishes_);
        const Deviation deepest = deviation_of(judged.deepest, plane),
                        proudest = deviation_of(judged.proudest, plane);
        const bool first = verdict.planes++ == 0;
        if (first || deepest.along_normal < verdict.deepest.along_normal) verdict.deepest = deepest;
        if (first || proudest.along_normal > verdict.proudest.along_normal) verdict.proudest = proudest;
        if (judged.heel.least <= judged.heel.greatest) {
            const double runout = judged.heel.greatest - judged.heel.least;
            verdict.heel_runout = std::max(verdict.heel_runout.value_or(0.0), runout);
        }
        verdict.cut = verdict.cut && judged.cut;
        report_.resolution = std::max(report_.resolution, hidden_dip + judged.missed);
        return judged.proudest;
    }

    /// From the foretold ridge of each two neighbouring places on: the plane of the ridge, the proudest ray
    /// in it, the plane of the ridge on that ray, until it stays.
    void look_between_places(const LobePlanes& lobe, LobeVerdict& verdict) {
        constexpr int most_planes = 4;
        const double low = lobe.lobe->z - 0.5 * lobe.lobe->width,
                     high = lobe.lobe->z + 0.5 * lobe.lobe->width;
        const std::vector<double> places = cutting_places(moves_, stock_);
        for (std::size_t i = 1; i < places.size(); ++i) {
            if (places[i] <= low || places[i - 1] >= high) continue;
            const PlacePair pair(moves_, body_.cutting, places[i - 1], places[i], stock_);
            std::optional<double> psi = pair.proudest_ray(lobe.rays);
            double last = 0.5 * (places[i - 1] + places[i]);
            for (int planes = 0; psi && planes < most_planes; ++planes) {
                const std::optional<double> z = pair.ridge_on(*psi);
                if (!z || *z <= low || *z >= high || std::abs(*z - last) < same_plane) break;
                last = *z;
                psi = take_plane(PlaneSweep(moves_, body_.cutting, *z, stock_), lobe, verdict).psi;
            }
        }
    }

    Deviation deviation_of(const PlaneExtreme& extreme, const PlaneSweep& plane) const {
        return {extreme.along_normal, ShaftAngle::from_radians(wrapped_radians(extreme.psi)), plane.z(),
                extreme.move < 0 ? 0 : moves_[static_cast<std::size_t>(extreme.move)].line};
    }

    void report_lobe(LobeVerdict& verdict) {
        const double tolerance = job_.cut->tolerance + arithmetic - program_.blend_tolerance;
        const bool gouged = verdict.deepest.along_normal < -tolerance;
        const bool proud = verdict.proudest.along_normal > tolerance;
        verdict.within = verdict.cut && !gouged && !proud;
        const auto place = [&](const Deviation& d) {
            return "lobe " + verdict.name + " at " + fixed(d.at.degrees(), 2) +
                   " degrees, z = " + findings_.length(d.z);
        };
        if (gouged) {
            findings_.error("gouge", verdict.deepest.line,
                            place(verdict.deepest) + ": " + findings_.length(-verdict.deepest.along_normal) +
                                " too deep, the tolerance is " + findings_.length(job_.cut->tolerance));
        }
        if (!verdict.cut) {
            findings_.error("not-cut", 0, "lobe " + verdict.name + " is not cut over its whole width");
        } else if (proud) {
            findings_.error("material-left", verdict.proudest.line,
                            place(verdict.proudest) + ": " + findings_.length(verdict.proudest.along_normal) +
                                " left on, the tolerance is " + findings_.length(job_.cut->tolerance));
        }
    }

    const Job& job_;
    const std::vector<SolvedLobe>& lobes_;
    const ReadProgram& program_;
    const CutterBody& body_;
    Findings findings_;
    double stock_;
    std::vector<ShaftMove> moves_;
    std::vector<char> finishes_;  // by move, for one lobe
    ProofReport report_;
};

/// The worse of two verdicts on one lobe, each deviation for itself.
void worsen(LobeVerdict& lobe, const LobeVerdict& other) {
    if (other.deepest.along_normal < lobe.deepest.along_normal) lobe.deepest = other.deepest;
    if (other.proudest.along_normal > lobe.proudest.along_normal) lobe.proudest = other.proudest;
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
    for (Diagnostic finding : deleted.findings) {
        finding.what = "with block delete on: " + finding.what;
        report.findings.push_back(std::move(finding));
    }
}

}  // namespace

Outcome<ProofReport> prove(const Job& job, const std::vector<SolvedLobe>& lobes, const Dialect& dialect,
                           const std::string& text, const std::string& file) {
    if (Diagnostics unmet = unmet_needs(job, Purpose::prove); !unmet.empty()) return unmet;
    const CutterBody body = cutter_body(job);
    const Outcome<ReadProgram> program = read_program(text, file, dialect, job.units);
    if (!program) return program.diagnostics();
    ProofReport report = Prover(job, lobes, *program, body).prove();
    if (program->deletable) {
        const Outcome<ReadProgram> deleted = read_program(text, file, dialect, job.units, BlockDelete::on);
        if (!deleted) return deleted.diagnostics();
        worsen(report, Prover(job, lobes, *deleted, body).prove());
    }
    return report;
}

}  // namespace lobewright
