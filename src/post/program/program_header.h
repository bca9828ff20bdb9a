/// What a program says in words before its first move, and at the head of each pass.
#pragma once

#include "post/program/place_notes.h"

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>
#include <lobewright/program_writer.h>
#include <lobewright/toolpath.h>

#include <string>
#include <vector>

namespace lobewright::post {

/// The last part of a path: a program names its job without the folders of the machine it was made on.
std::string file_name(const std::string& path);

/// Everything that the one at the machine must know: what is cut and with what, where each axis has its zero
/// and which way it counts, what to check, the cautions. One comment each, not cleaned.
std::vector<std::string> header_notes(const WrittenOperations& operations, const Dialect& dialect,
                                      const PlaceWords& places, const ProgramPart& part);

/// "Operation finish. Tool 2, its length is number 2. Cutter disc32: ...", where that tool is called.
std::string tool_note(const Job& job, const Dialect& dialect);

/// "lobe 1 inlet: roughing 2, 0.35 mm left on, Z20"
std::string pass_note(const Job& job, const std::vector<SolvedLobe>& lobes, const Pass& pass,
                      const Dialect& dialect);

}  // namespace lobewright::post
