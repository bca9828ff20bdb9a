/// Lobes side by side, so that someone can choose one.
#pragma once

#include <lobewright/lift_table.h>
#include <lobewright/soundness.h>

#include <optional>
#include <string>
#include <vector>

namespace lobewright {

/// One of the lobes compared.
struct ComparedLobe {
    std::string profile;  ///< by name
    std::string law;      ///< "cycloidal", "power-polynomial 2-10-18-26"; empty: the profile as it stands
    std::string lobe;     ///< whose follower, width and valve it is judged with
    std::optional<LobeReport> report;    ///< absent where it can't be
    double acceleration_jump = 0.0;      ///< mm/rad², the largest; above 0 the jerk is infinite there
    std::optional<CrankAngle> overlap;   ///< with the cylinder's other valve, each at its card's lift
    std::optional<CrankAngle> duration;  ///< at the card's lift
    Diagnostics complaints;              ///< why it can't be
};

/// All profiles of the job, in the order of their names: each on `lobe` (an index of Job::lobes), or on the
/// first lobe that uses it, or where none does on the job's first. Shapes that `known` holds aren't solved
/// anew.
std::vector<ComparedLobe> compare_profiles(const Job& job, std::optional<std::size_t> lobe,
                                           KnownShapes& known);
std::vector<ComparedLobe> compare_profiles(const Job& job, std::optional<std::size_t> lobe);

/// All laws of motion with one profile's base circle, lift and ramps and with its angles, or those that its
/// card gives each of them. Of arcs, the laws share the action angle out evenly. The power polynomial has the
/// profile's powers, or 2-10-18-26. `lobe` as above. Refused for profiles that no law can stand in for
/// (readings, segments), at the place of their shape. Required: job has the profile.
Outcome<std::vector<ComparedLobe>> compare_laws(const Job& job, const std::string& profile,
                                                std::optional<std::size_t> lobe, KnownShapes& known);
Outcome<std::vector<ComparedLobe>> compare_laws(const Job& job, const std::string& profile,
                                                std::optional<std::size_t> lobe);

/// Text in the job's units by the names of examples/job-file.md; derivatives per degree and its powers. What
/// has no value is an empty cell in csv and markdown, null in json.
std::string comparison_text(const Job& job, const std::vector<ComparedLobe>& lobes, TableFormat format);
/// For people, in columns.
std::string comparison_columns(const Job& job, const std::vector<ComparedLobe>& lobes);

}  // namespace lobewright
