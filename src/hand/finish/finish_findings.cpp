#include "hand/finish/finish_findings.h"

#include "hand/wording.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace lobewright::hand {
namespace {

/// A gouge of less is no more than rounding on the dial, mm.
constexpr double least_gouge = 0.001;

/// One lobe's findings, into a plan.
class FinishFindings {
  public:
    FinishFindings(const Job& job, const std::vector<SolvedLobe>& lobes, HandPlan& plan,
                   const HandFinish& finish)
        : units_(job.units),
          wheel_(job.hand.at(plan.method).kind == HandKind::offset_fixture),
          name_(lobes[finish.lobe].name),
          finish_(finish),
          findings_(plan.findings) {}

    void tell() {
        tell_valve();
        tell_ridges();
        tell_flanks();
        tell_events();
    }

  private:
    void add(Severity severity, std::string code, std::string message) {
        findings_.push_back(finding(severity, std::move(code), name_, std::move(message)));
    }
    [[nodiscard]] std::string length(double mm) const { return length_words(mm, units_); }
    [[nodiscard]] std::string finer() const {
        return wheel_ ? "use a wheel with more divisions" : "take a finer step";
    }
    [[nodiscard]] std::string truer() const {
        return wheel_ ? "use a wheel with its marks there, or a vernier" : finer();
    }

    void tell_valve() {
        if (!finish_.valve_shuts)
            add(Severity::error, "valve-held-open",
                "the ridges, up to " + length(finish_.highest_ridge) +
                    " high, would hold the valve open at its clearance: " + finer() +
                    ", or dress them off before the shaft runs");
        if (!finish_.valve_opens)
            add(Severity::error, "valve-never-opens",
                "so much is cut off its flanks, up to " + length(-finish_.deepest) +
                    " below the design, that the valve would never open to its clearance: " + truer());
    }
    void tell_ridges() {
        if (finish_.valve_shuts && finish_.highest_ridge > most_off_design)
            add(Severity::warning, "high-ridges",
                "the ridges stand up to " + length(finish_.highest_ridge) + " above the design: " + finer() +
                    ", or dress them off");
    }
    void tell_flanks() {
        if (finish_.deepest < -least_gouge)
            add(finish_.deepest < -most_off_design ? Severity::warning : Severity::note, "gouge",
                "a flank that is set off its place cuts up to " + length(-finish_.deepest) +
                    " below the design");
        if (finish_.proudest > std::max(most_off_design, finish_.highest_ridge))
            add(Severity::warning, "left-on",
                "a flank that is set off its place is left up to " + length(finish_.proudest) +
                    " above the design: " + truer());
    }
    void tell_events() {
        if (!finish_.valve_shuts || !finish_.valve_opens) return;
        const double opens = finish_.opens_late.degrees(), closes = finish_.closes_late.degrees();
        if (std::max(std::abs(opens), std::abs(closes)) <= most_off_time.degrees()) return;
        add(Severity::warning, "off-time",
            "the valve opens " + late_words(opens) + " and closes " + late_words(closes) + ": " + truer());
    }
    static std::string late_words(double degrees) {
        return degrees_figure(std::abs(degrees), 2) + "° of crank " + (degrees < 0.0 ? "early" : "late");
    }

    Units units_;
    bool wheel_;
    const std::string& name_;
    const HandFinish& finish_;
    Diagnostics& findings_;
};

}  // namespace

void tell_finish(const Job& job, const std::vector<SolvedLobe>& lobes, HandPlan& plan) {
    for (const HandFinish& finish : plan.finish)
        FinishFindings(job, lobes, plan, finish).tell();
}

}  // namespace lobewright::hand
