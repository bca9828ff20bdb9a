/// A path that must be there.
#pragma once

#include "job_kit.h"

#include <lobewright/toolpath.h>

inline lobewright::Toolpath planned(const lobewright::Job& job,
                                    const std::vector<lobewright::SolvedLobe>& lobes,
                                    const lobewright::WordGrid& grid = {}) {
    return taken(lobewright::plan_toolpath(job, lobes, grid));
}
