#include "hand/finish/finish_remarks.h"

#include <algorithm>

namespace lobewright::hand {
namespace {

CrankAngle size_of(CrankAngle angle) {
    return std::max(angle, -angle);
}

void remark_lobe(const HandFinish& finish, Remarks& remarks) {
    const std::size_t lobe = finish.lobe;
    const double depth = -finish.deepest;
    if (!finish.valve_shuts) remarks.push_back(ValveHeldOpen{lobe, finish.highest_ridge});
    if (!finish.valve_opens) remarks.push_back(ValveNeverOpens{lobe, depth});
    if (finish.valve_shuts && finish.highest_ridge > most_off_design)
        remarks.push_back(HighRidges{lobe, finish.highest_ridge});
    if (depth > least_gouge) remarks.push_back(Gouge{lobe, depth});
    if (finish.proudest > std::max(most_off_design, finish.highest_ridge))
        remarks.push_back(LeftOn{lobe, finish.proudest});
    if (!finish.valve_shuts || !finish.valve_opens) return;
    if (std::max(size_of(finish.opens_late), size_of(finish.closes_late)) > most_off_time)
        remarks.push_back(OffTime{lobe, finish.opens_late, finish.closes_late});
}

}  // namespace

void remark_finish(const std::vector<HandFinish>& finish, Remarks& remarks) {
    for (const HandFinish& each : finish)
        remark_lobe(each, remarks);
}

}  // namespace lobewright::hand
