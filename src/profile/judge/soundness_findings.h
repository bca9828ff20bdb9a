/// What is said of the faults of a lobe (lobe_faults.h): the one place that turns them into sentences. This
/// room holds the judgement of solved lobes: forces, pressures, figures, findings, and the report of them.
#pragma once

#include "profile/follower/lobe_curve.h"

#include <lobewright/soundness.h>

#include <vector>

namespace lobewright::profile {

Diagnostics lobe_findings(const Job& job, const SolvedLobe& lobe, const LobeReport& report,
                          const LobeCurve& curve);

/// `value` rounded to `figures` significant figures, away from what is too little (up) or too much (down), so
/// that the figure in a remedy does cure. Required: value > 0.
std::string at_least(double value, int figures = 4);
std::string at_most(double value, int figures = 4);

}  // namespace lobewright::profile
