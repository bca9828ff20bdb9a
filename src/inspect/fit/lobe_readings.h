/// One lobe's readings in the order in which they lie round it.
#pragma once

#include "inspect/fit/phase_fit.h"

namespace lobewright::inspection {

/// The readings' order by the direction that faced the probe, in the lobe's frame.
std::vector<std::size_t> order_round(const SolvedLobe& lobe, const MeasuredLobe& measured);
std::vector<RayReading> rays_of(const SolvedLobe& lobe, const MeasuredLobe& measured,
                                const std::vector<std::size_t>& order);
/// At most so many of them, evenly taken.
std::vector<RayReading> thinned(const std::vector<RayReading>& readings, std::size_t most);

/// What readings of a dial with that step scatter at least: rounding errs by a twelfth of its square on the
/// mean.
double least_scatter(double step);

}  // namespace lobewright::inspection
