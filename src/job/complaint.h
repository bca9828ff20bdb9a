/// Complaints about a job, at the place of the key that causes them.
#pragma once

#include <lobewright/job.h>

#include <string>
#include <string_view>

namespace lobewright {

/// A check that failed, caused by the key `path` of the job ("lobe[3].z"). The same key of other items of a
/// list, or the same complaint of other lobes, is like it.
Diagnostic refusal(const Job& job, std::string_view path, std::string code, std::string what,
                   std::string remedy);

/// The job says too little, or what it says is wrong in itself: exit code 2. The place is that of `path`, or
/// of the table in which it should stand.
Diagnostic bad_key(const Job& job, std::string_view path, std::string code, std::string what,
                   std::string remedy);

}  // namespace lobewright
