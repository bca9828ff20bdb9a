/// One cut as several programs, for a controller whose memory doesn't hold all of it.
#pragma once

#include <lobewright/operation_work.h>
#include <lobewright/proven_program.h>

#include <string>
#include <vector>

namespace lobewright {

/// One of them: whole in itself, for lobes that are cut by it from their stock to their last pass.
struct ProgramFile {
    Job job;  ///< of its lobes alone; those of the programs before it stand finished, the others as they are
    std::vector<SolvedLobe> lobes;
    ProvenProgram program;
};

/// The programs of an operation in the order in which they are run: one, or, where dialect.longest_program is
/// less than that, as few as hold whole lobes in the shaft's order, each proven by itself. A lobe whose
/// program alone is longer is refused, with its length. `earlier`: see proven_program.
Outcome<std::vector<ProgramFile>> proven_files(const OperationWork& work,
                                               const std::vector<EarlierProgram>& earlier = {});

/// Names of the lobes of each of these programs, none of which is proven. Required: dialect.longest_program
/// is there.
Outcome<std::vector<std::vector<std::string>>> lobes_of_files(const OperationWork& work);

}  // namespace lobewright
