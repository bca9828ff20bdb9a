/// A lobe's inspection in sentences. This room makes texts of what the stage has found out.
#pragma once

#include <lobewright/inspect_fit.h>

namespace lobewright::inspection {

/// "0.012° ± 0.003°", "+0.0021 mm ± 0.0003 mm": with its standard error.
std::string degrees_estimate(const Estimate& radians);
std::string length_estimate(const Estimate& mm, Units units);

/// What the fit took as known, and what it found.
std::vector<std::string> assumptions(const LobeInspection& found, Units units);
std::vector<std::string> findings_of(const Job& job, const SolvedLobe& lobe, const LobeInspection& found);
std::vector<std::string> findings_of(const Job& job, const std::vector<SolvedLobe>& lobes,
                                     const ShaftInspection& shaft);

}  // namespace lobewright::inspection
