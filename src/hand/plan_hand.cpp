#include "hand/dividing/facets.h"
#include "hand/fixture/offset_fixture.h"
#include "hand/wording/sentences.h"
#include "profile/blank.h"

#include <lobewright/hand.h>
#include <lobewright/needs.h>

namespace lobewright {
namespace {

/// Complaints about bar and method; a fixture's figures mean nothing on a bar that is too small.
Diagnostics faults_beforehand(const hand::Subject& subject) {
    const HandMethod& method = subject.job.hand.at(subject.method);
    Diagnostics complaints = profile::faults_of_blank(subject.job, subject.lobes, method.allowance);
    if (method.kind == HandKind::offset_fixture) return complaints;
    const auto obstacles = hand::obstacles_to_facets(subject.job, subject.lobes, method);
    const auto others = hand::complaints_about(subject, obstacles);
    complaints.insert(complaints.end(), others.begin(), others.end());
    return complaints;
}

}  // namespace

Outcome<HandPlan> plan_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method) {
    if (Diagnostics unmet = unmet_needs(job, Purpose::index, method); !unmet.empty()) return unmet;
    const hand::Subject subject{job, lobes, method};
    if (Diagnostics faults = faults_beforehand(subject); !faults.empty()) return faults;
    hand::Planned planned = job.hand.at(method).kind == HandKind::offset_fixture
                                ? hand::plan_offset_fixture(job, lobes, method)
                                : hand::plan_facets(job, lobes, method);
    if (!planned.obstacles.empty()) return hand::complaints_about(subject, planned.obstacles);
    planned.plan.findings = hand::findings_of(subject, planned.remarks);
    return std::move(planned.plan);
}

}  // namespace lobewright
