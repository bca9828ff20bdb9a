/// Reads the job file: TOML text in, a job or every complaint about it out.
#pragma once

#include <lobewright/job.h>

#include <functional>

namespace lobewright {

/// Gives the text of a file that the job names (a lift table), by its path relative to the job file; the
/// caller resolves the folder. A failure carries Fault::unreadable.
using ReadNeighbour = std::function<Outcome<std::string>(const std::string& path)>;

/// `file` is only for messages. Complains about everything that is wrong with the file in one go: syntax,
/// unknown and repeated keys, types, ranges, references, keys that exclude or need each other. Numbers must
/// be finite; integers are accepted where a number is wanted.
Outcome<Job> read_job(const std::string& text, const std::string& file, const ReadNeighbour& neighbour);

}  // namespace lobewright
