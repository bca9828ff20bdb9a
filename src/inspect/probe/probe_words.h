/// A probe and an angle as a sentence names them.
#pragma once

#include <lobewright/job.h>

#include <string>

namespace lobewright::inspection {

/// "a flat anvil", "a ball of radius 2 mm", "a knife edge".
std::string probe_words(const Probe& probe, Units units);

}  // namespace lobewright::inspection
