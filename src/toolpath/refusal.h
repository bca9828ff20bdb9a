/// Complaints of the toolpath: places of keys and lengths in the user's units.
#pragma once

#include <lobewright/job.h>

#include <string>
#include <string_view>

namespace lobewright::toolpath {

/// A check that failed, at the place of the key `path` of the job.
Diagnostic refusal(const Job& job, std::string_view path, std::string code, std::string what,
                   std::string remedy);

/// A key that this command needs and the job hasn't: the job itself is incomplete (exit code 2).
Diagnostic missing(const Job& job, std::string_view path, std::string what, std::string remedy);

/// "12.5 mm" or "0.4921 in": mm printed in the job's units, to 0.1 µm.
std::string length_text(double mm, Units units);
/// The same, never above (or never below) `mm`: for a limit that must be accepted when it is applied.
std::string length_at_most(double mm, Units units);
std::string length_at_least(double mm, Units units);
std::string degrees_text(double radians);

/// The path of a lobe's entry: "lobe[3]".
std::string lobe_key(std::size_t entry);

}  // namespace lobewright::toolpath
