/// What only the whole job can say: lobes and journals along the shaft, and the blank about them. Every
/// complaint is Fault::check_failed.
#pragma once

#include <lobewright/job.h>

#include <set>
#include <string>
#include <vector>

namespace lobewright {

/// Lobes and journals that overlap along the shaft, or don't lie within its length. Those that share a face
/// don't overlap.
Diagnostics faults_along_shaft(const Job& job);

/// How far a lobe reaches from the shaft's axis, with what is left on it.
struct LobeReach {
    std::string lobe;
    double radius = 0.0;
};
/// A blank too small for the lobe that reaches furthest; nothing where it holds them all, an exact fit
/// included, or where its diameter isn't given.
Diagnostics faults_of_blank(const Job& job, const std::vector<LobeReach>& lobes);

/// All of it, as far as it can be told before the lobes are solved and without the `unsound` items
/// ("lobe[3]") and lists ("lobe"), which could not be read whole. `whole`: all of the job was read.
Diagnostics layout_faults(const Job& job, const std::set<std::string>& unsound, bool whole);

}  // namespace lobewright
