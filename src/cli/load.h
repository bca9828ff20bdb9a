/// Reading what a command works on: the job with its neighbours, programs, dialects.
#pragma once

#include "cli/files.h"
#include "cli/options.h"
#include "cli/result.h"

#include <lobewright/dialect.h>
#include <lobewright/lobe.h>
#include <lobewright/needs.h>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace lobewright::cli {

/// The whole of a TOML file, at most 4 MiB, noted among `inputs`.
Outcome<std::string> read_toml(const std::filesystem::path& path, Inputs& inputs);

/// The whole of a file of data, at most 256 MiB; noted among `inputs`.
Outcome<std::string> read_data(const std::filesystem::path& path, Files& files);
Outcome<std::string> read_data(const std::filesystem::path& path, Inputs& inputs);

/// The whole of a file of data that an argument names, or "-" for standard input.
Outcome<std::string> read_data_argument(const std::string& argument, Inputs& inputs);

/// A text that an argument names, piece by piece: a file of data, or "-" for standard input; and what it is
/// called in messages.
Outcome<std::unique_ptr<TextSource>> open_argument(const std::string& argument, Inputs& inputs);
std::string name_of_argument(const std::string& argument);

/// The job that an argument names, a file or "-" for standard input; the files that it names are found from
/// its own folder, or the current one.
Outcome<Job> load_job(const std::string& argument, Inputs& inputs);

/// What is asked about figures that are hardly meant so, as far as the lobes could be solved.
Diagnostics questions_about(const Job& job, const Outcome<std::vector<SolvedLobe>>& lobes);

/// A job with its lobes solved.
struct SolvedJob {
    Job job;
    std::vector<SolvedLobe> lobes;
};
/// Figures that are hardly meant so are warnings. With a purpose, the needs of that purpose which the job
/// doesn't meet are complaints beside those of the lobes.
Outcome<SolvedJob> load_solved_job(const std::string& argument, Inputs& inputs,
                                   std::optional<Purpose> purpose = std::nullopt);

/// The work on the lobes that --lobe and --from choose, the whole job where they choose none; an unknown name
/// is a complaint. The lobes left out are told among `remarks`.
Outcome<SolvedJob> chosen_work(SolvedJob whole, const Options& options, std::vector<std::string>& remarks);

/// Puts an outcome's diagnostics among the result's messages; whether it holds a value.
template <class T>
bool take(const Outcome<T>& outcome, Result& result) {
    append(result.messages, outcome.diagnostics());
    return outcome.ok();
}

/// Of a job's named things, the complaint that `name` is none of them: with the nearest, or all of them.
Diagnostic unknown_name(const std::string& thing, const std::string& name,
                        const std::vector<std::string>& known, const Place& place);

/// The lobe called `name`, and the hand method; without a name the only one. `command` is the one that wants
/// it.
Outcome<std::size_t> find_lobe(const std::vector<SolvedLobe>& lobes, const std::string& name,
                               const std::string& command);
Outcome<std::string> find_method(const Job& job, const std::string& name, const std::string& command);

}  // namespace lobewright::cli
