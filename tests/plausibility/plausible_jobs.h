/// Sound jobs of many kinds, as their makers would write them, and what is asked about a job.
#pragma once

#include "job_kit.h"

#include <lobewright/plausibility.h>

#include <string>
#include <vector>

namespace plausible_jobs {

/// The texts; the shipped ones are examples/basalt-four.toml and so on.
std::string four();
std::string four_radial();
std::string single_lathe();
std::string single_grinder();
/// A four in inches: roller lifters, rockers of 1.5, ground.
std::string inch_four();
/// Arcs by angle, no engine.
std::string by_angles();
/// Measured readings, read beside it.
std::string traced();

struct NamedText {
    std::string name;
    std::string text;
};
/// All of the above, the jobs to begin from, and a radial's cam ring, a vee twin, a machine's cam, a shaft in
/// tunnel bearings, and gear without clearance.
std::vector<NamedText> all();

/// The questions about a job. Its lobes must solve; the test fails with the complaints where they don't.
lobewright::Diagnostics questions(const std::string& text);
/// Each on a line: "code: what: remedy".
std::string told(const lobewright::Diagnostics& questions);

}  // namespace plausible_jobs
