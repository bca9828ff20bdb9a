/// Some of a job's lobes, the others left as they are: a cutter that broke, a lobe that has to be cut again.
#pragma once

#include <lobewright/lobe.h>

#include <string>
#include <vector>

namespace lobewright {

/// A job of the chosen lobes alone. Each of the others stands in the way as a journal of the blank's
/// diameter, or, where the stock says that the lobe stands already, as one about that: no part of the cutter
/// may come into it.
struct ChosenLobes {
    Job job;
    std::vector<SolvedLobe> lobes;
    std::vector<std::string> left_out;  ///< names
};

/// The lobes of these names. Required: each name is one of `lobes`; the job has a blank.
ChosenLobes chosen_lobes(const Job& job, const std::vector<SolvedLobe>& lobes,
                         const std::vector<std::string>& names);

/// The names of that lobe and of those that are cut after it: farther from the drive end.
std::vector<std::string> lobes_from(const std::vector<SolvedLobe>& lobes, const std::string& name);

}  // namespace lobewright
