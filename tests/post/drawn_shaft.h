/// Random shafts for whole programs: the random jobs of the toolpath with all that a program has beside its
/// path, and often several operations, on one machine or on two.
#pragma once

#include "../toolpath/random_job.h"

#include <lobewright/dialect.h>

struct DrawnShaft {
    lobewright::Job job;
    std::vector<lobewright::SolvedLobe> lobes;
    std::vector<lobewright::Dialect> dialects;  ///< of each operation
    bool in_one = false;                        ///< all operations in one program, where that can be
    std::string kind;  ///< what it is one of: "parallel disc", "tangential ball-nose, grinding"
};

DrawnShaft draw_shaft(random_job::Source& random);
