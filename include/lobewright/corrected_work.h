/// The work of a second cut: those lobes alone on which readings find something left, each with the contour
/// that it is cut to.
#pragma once

#include <lobewright/correction.h>
#include <lobewright/proven_program.h>

#include <string>
#include <vector>

namespace lobewright {

/// What is cut, and what it is proven against: `lobes` are the aims, so a program that is planned for them,
/// or proven against them, is one of the corrected contours, with the job's own tolerance. What stands there
/// before is the aim with as much left on everywhere as the readings find at most (`job.stock`). All other
/// lobes stand in the way as bar.
struct CorrectedWork {
    Job job;
    std::vector<SolvedLobe> lobes;
    std::vector<LobeCorrection> corrections;  ///< of all lobes with readings
    std::vector<std::string> notes;           ///< for the program's first lines: what is assumed
};

/// The first program is taken to be the one that the job makes as it stands: what that leaves by itself,
/// within its tolerance, is no error to correct. `readings`: what the file of readings is called. Warnings:
/// gouges, readings that look like another lobe's. Refused: what lobe_correction refuses; nothing to take off
/// (Fault::check_failed). Required: the job meets the needs of Purpose::cut.
Outcome<CorrectedWork> corrected_work(const Job& job, const std::vector<SolvedLobe>& lobes,
                                      const std::vector<MeasuredLobe>& measured,
                                      const CorrectionRequest& request, const Dialect& dialect,
                                      const std::string& readings);

/// As proven_program: the program for the aims, with the work's notes, proven against the aims.
Outcome<ProvenProgram> proven_correction(const CorrectedWork& work, const Dialect& dialect);

}  // namespace lobewright
