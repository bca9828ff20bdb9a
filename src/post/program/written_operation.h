/// What one operation of a program is made of.
#pragma once

#include <lobewright/lobe.h>
#include <lobewright/toolpath.h>

#include <vector>

namespace lobewright::post {

/// A view: all three outlive it.
struct WrittenOperation {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const Toolpath& path;
};
/// In the order in which they are cut; at least one.
using WrittenOperations = std::vector<WrittenOperation>;

inline const Cutter& cutter_of(const Job& job) {
    return job.cutters.find(job.cut->cutter)->second;
}

}  // namespace lobewright::post
