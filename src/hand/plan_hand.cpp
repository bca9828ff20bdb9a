#include "hand/dividing/facets.h"
#include "hand/fixture/offset_fixture.h"

#include <lobewright/hand.h>
#include <lobewright/needs.h>

namespace lobewright {

Outcome<HandPlan> plan_hand(const Job& job, const std::vector<SolvedLobe>& lobes, const std::string& method) {
    if (Diagnostics unmet = unmet_needs(job, Purpose::index, method); !unmet.empty()) return unmet;
    if (job.hand.at(method).kind == HandKind::offset_fixture)
        return hand::plan_offset_fixture(job, lobes, method);
    return hand::plan_facets(job, lobes, method);
}

}  // namespace lobewright
