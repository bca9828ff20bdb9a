/// The Basalt four with its lobes, solved once.
#pragma once

#include "basalt.h"
#include "job_kit.h"

inline const lobewright::Job& four() {
    static const lobewright::Job job = basalt::four();
    return job;
}
inline const std::vector<lobewright::SolvedLobe>& lobes() {
    static const std::vector<lobewright::SolvedLobe> solved = taken(lobewright::solve_lobes(four()));
    return solved;
}
