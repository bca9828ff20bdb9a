#include "profile/blank.h"

#include "base/text/length_text.h"
#include "job/complaint.h"

namespace lobewright::profile {

Diagnostics faults_of_blank(const Job& job, const std::vector<SolvedLobe>& lobes, double left_on) {
    std::vector<LobeReach> reaches;
    for (const SolvedLobe& lobe : lobes)
        reaches.push_back({lobe.name, lobe.contour.largest_radius() + left_on});
    return faults_of_blank(job, reaches);
}

Diagnostics faults_of_stock(const Job& job, const std::vector<SolvedLobe>& lobes) {
    Diagnostics found;
    if (!job.stock.left_on) return found;
    for (const SolvedLobe& lobe : lobes) {
        const double hollow = lobe.contour.smallest_hollow_radius();
        if (*job.stock.left_on < hollow) continue;
        found.push_back(
            refusal(job, "stock.left_on", "stock-over-hollow",
                    "left_on of [stock] is " + length_words(*job.stock.left_on, job.units) + ", and lobe " +
                        lobe.name + " has a hollow of " + length_words(hollow, job.units) +
                        " radius: no surface stands so far over it all along",
                    "give what is left on the lobe where it is least, below that radius; or, where "
                    "bar stands there, leave [stock] out"));
    }
    return found;
}

}  // namespace lobewright::profile
