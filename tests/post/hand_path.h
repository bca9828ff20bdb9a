/// A job of two lobes and a toolpath for it, worked out here without the planner: eccentric discs under a
/// wheel.
#pragma once

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>
#include <lobewright/toolpath.h>

#include <string>
#include <vector>

/// A dialect of postprocessors/, by name. Throws where it can't be read.
lobewright::Dialect shipped_dialect(const std::string& name);
/// The names of all of them.
const std::vector<std::string>& shipped_names();

/// Two lobes of the invented engine "Basalt four", a wheel of 32 mm parallel to the shaft, finish passes.
lobewright::Job hand_job(lobewright::Units units = lobewright::Units::mm);
std::vector<lobewright::SolvedLobe> hand_lobes();
/// A roughing and a finish pass over each lobe, in blocks of 24 degrees (less where the dialect wants less).
lobewright::Toolpath hand_path(const lobewright::Job& job, const lobewright::Dialect& dialect);
