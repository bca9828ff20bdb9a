#include "hand/facets.h"
#include "hand/offset_fixture.h"

#include <lobewright/hand.h>

namespace lobewright {

Outcome<HandPlan> plan_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method) {
    const auto found = job.hand.find(method);
    if (found == job.hand.end()) {
        std::string names;
        for (const auto& [name, unused] : job.hand)
            names += (names.empty() ? "" : ", ") + name;
        const std::string remedy = names.empty() ? "add a table [hand.NAME]" : "this job has: " + names;
        return Diagnostic{Fault::bad_input, Severity::error,
                          "no-method",      "there is no method \"" + method + "\" in [hand]",
                          remedy,           job.place_of("hand")};
    }
    if (found->second.kind == HandKind::offset_fixture) return plan_offset_fixture(job, lobes, method);
    return plan_facets(job, lobes, method);
}

}  // namespace lobewright
