/// The planners' facts in sentences.
///
/// This folder holds the words of cutting by hand: complaints, remarks, figures as the bench reads them.
#pragma once

#include "hand/facts.h"

#include <lobewright/diagnostic.h>

#include <string>
#include <vector>

namespace lobewright::hand {

/// What the sentences are about.
struct Subject {
    const Job& job;
    const std::vector<SolvedLobe>& lobes;
    const std::string& method;  ///< its name in [hand]
};

/// Complaints, each at the key that causes it, with what would cure it.
Diagnostics complaints_about(const Subject& subject, const Obstacles& obstacles);

/// Findings for a plan.
Diagnostics findings_of(const Subject& subject, const Remarks& remarks);

}  // namespace lobewright::hand
