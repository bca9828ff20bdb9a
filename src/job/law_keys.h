/// The keys of profiles that laws of motion make.
#pragma once

#include "job/job_table.h"

#include <string>
#include <vector>

namespace lobewright {

/// The job file's words for the laws, in the order of LawKind.
const std::vector<std::string>& law_words();

MotionProfile read_motion(JobTable& table);      ///< shape = "motion"
SegmentsProfile read_segments(JobTable& table);  ///< shape = "segments"
FullestProfile read_fullest(JobTable& table);    ///< shape = "fullest"

}  // namespace lobewright
