/// The parts of the model that have files of their own. The model is plain data for the viewer: this folder
/// knows nothing of pages, the viewer nothing of the library.
#pragma once

#include "base/text/json_text.h"
#include "base/whole_steps.h"

#include <lobewright/sheet.h>

namespace lobewright::sheet {

/// Figures that a screen can show, and no more.
inline double rounded(double value) {
    return static_cast<double>(nearest_step(value * 1e5)) / 1e5;
}

/// A hand method with its settings and its route.
void put_method(JsonText& json, const Job& job, const std::vector<SolvedLobe>& lobes, const HandPlan& plan);
/// The program with its cutter, its text, its moves and what it leaves.
void put_program(JsonText& json, const Job& job, const SheetProgram& program);

}  // namespace lobewright::sheet
