/// A job of two lobes and a toolpath for it, worked out here without the planner: eccentric discs under a
/// wheel.
#pragma once

#include "job_kit.h"

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>
#include <lobewright/toolpath.h>

#include <string>
#include <vector>

/// Two lobes of the invented engine "Basalt four", a wheel of 32 mm parallel to the shaft, finish passes.
lobewright::Job hand_job(lobewright::Units units = lobewright::Units::mm);
std::vector<lobewright::SolvedLobe> hand_lobes();
/// A roughing and a finish pass over each lobe, in blocks of 24 degrees (less where the dialect wants less).
lobewright::Toolpath hand_path(const lobewright::Job& job, const lobewright::Dialect& dialect);
