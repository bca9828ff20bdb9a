#include "cli/load.h"

#include "base/document.h"
#include "cli/system/path_text.h"
#include "cli/system/reading.h"

#include <lobewright/chosen_lobes.h>
#include <lobewright/job_file.h>
#include <lobewright/plausibility.h>

#include <algorithm>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr std::size_t largest_toml = std::size_t{4} << 20;
constexpr std::size_t largest_data = std::size_t{256} << 20;

Outcome<std::string> read_noted(const fs::path& path, std::size_t most, Inputs& inputs) {
    Outcome<std::string> text = inputs.files.read(path, most);
    if (text) inputs.read.push_back(path);
    return text;
}

}  // namespace

Outcome<std::string> read_toml(const fs::path& path, Inputs& inputs) {
    return read_noted(path, largest_toml, inputs);
}

Outcome<std::string> read_data(const fs::path& path, Files& files) {
    return files.read(path, largest_data);
}

Outcome<std::string> read_data(const fs::path& path, Inputs& inputs) {
    return read_noted(path, largest_data, inputs);
}

Outcome<std::string> read_data_argument(const std::string& argument, Inputs& inputs) {
    return argument == "-" ? inputs.files.read_standard_input(largest_data)
                           : read_data(path_of(argument), inputs);
}

Outcome<std::unique_ptr<TextSource>> open_argument(const std::string& argument, Inputs& inputs) {
    if (argument == "-") return inputs.files.open_standard_input(largest_data);
    auto text = inputs.files.open(path_of(argument), largest_data);
    if (text) inputs.read.push_back(path_of(argument));
    return text;
}

std::string name_of_argument(const std::string& argument) {
    return argument == "-" ? standard_input : argument;
}

Outcome<Job> load_job(const std::string& argument, Inputs& inputs) {
    const Outcome<std::string> text = argument == "-" ? inputs.files.read_standard_input(largest_toml)
                                                      : read_toml(path_of(argument), inputs);
    if (!text) return text.diagnostics();
    const fs::path folder = path_of(argument).parent_path();
    return read_job(*text, name_of_argument(argument), [&](const std::string& neighbour) {
        return read_data(folder / path_of(neighbour), inputs);
    });
}

Diagnostics questions_about(const Job& job, const Outcome<std::vector<SolvedLobe>>& lobes) {
    return implausible_figures(job, lobes ? *lobes : std::vector<SolvedLobe>{});
}

Outcome<SolvedJob> load_solved_job(const std::string& argument, Inputs& inputs,
                                   std::optional<Purpose> purpose) {
    Outcome<Job> job = load_job(argument, inputs);
    if (!job) return job.diagnostics();
    Outcome<std::vector<SolvedLobe>> lobes = solve_lobes(*job, inputs.shapes);
    Diagnostics messages = job.diagnostics();
    if (purpose) append(messages, unmet_needs(*job, *purpose));
    append(messages, lobes.diagnostics());
    append(messages, questions_about(*job, lobes));
    if (has_errors(messages)) return messages;
    return {SolvedJob{std::move(job).value(), std::move(lobes).value()}, std::move(messages)};
}

Diagnostic unknown_name(const std::string& thing, const std::string& name,
                        const std::vector<std::string>& known, const Place& place) {
    std::string all;
    for (const std::string& each : known)
        all += (all.empty() ? "\"" : ", \"") + each + "\"";
    const std::string nearest = nearest_word(name, known);
    const std::string list = all.empty()         ? "there is none"
                             : known.size() == 1 ? "there is only " + all
                                                 : "there are " + all;
    return {Fault::bad_input,
            Severity::error,
            "unknown-" + thing,
            "there is no " + thing + " \"" + name + "\"",
            nearest.empty() ? list : "did you mean \"" + nearest + "\"? " + list,
            place};
}

Outcome<std::size_t> find_lobe(const std::vector<SolvedLobe>& lobes, const std::string& name,
                               const std::string& command) {
    std::vector<std::string> names;
    for (const SolvedLobe& lobe : lobes)
        names.push_back(lobe.name);
    const Place place{"lobewright --lobe"};
    if (name.empty() && lobes.size() == 1) return std::size_t{0};
    if (name.empty()) {
        Diagnostic complaint = unknown_name("lobe", "", names, {"lobewright"});
        complaint.code = "missing-argument";
        complaint.what = "the job has several lobes: " + command + " wants --lobe NAME";
        return complaint;
    }
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) return unknown_name("lobe", name, names, place);
    return static_cast<std::size_t>(found - names.begin());
}

Outcome<std::string> find_method(const Job& job, const std::string& name, const std::string& command) {
    std::vector<std::string> names;
    for (const auto& [each, method] : job.hand)
        names.push_back(each);
    if (names.empty()) return unmet_needs(job, Purpose::index, name);
    if (name.empty() && names.size() == 1) return names.front();
    if (job.hand.contains(name)) return name;
    Diagnostic complaint = unknown_name("method", name, names, {"lobewright --method"});
    if (!name.empty()) return complaint;
    complaint.code = "missing-argument";
    complaint.what = "the job has several hand methods: " + command + " wants --method NAME";
    complaint.place = {"lobewright"};
    return complaint;
}

namespace {

/// The first of the names that is no lobe of the job.
std::optional<Diagnostic> find_unknown(const std::vector<SolvedLobe>& lobes, const Options& options) {
    std::vector<std::string> known;
    for (const SolvedLobe& lobe : lobes)
        known.push_back(lobe.name);
    const auto is_known = [&](const std::string& name) {
        return std::find(known.begin(), known.end(), name) != known.end();
    };
    for (const std::string& name : options.lobes) {
        if (!is_known(name)) return unknown_name("lobe", name, known, {"lobewright --lobe"});
    }
    if (options.from.empty() || is_known(options.from)) return std::nullopt;
    return unknown_name("lobe", options.from, known, {"lobewright --from"});
}

}  // namespace

Outcome<SolvedJob> chosen_work(SolvedJob whole, const Options& options, std::vector<std::string>& remarks) {
    if (options.lobes.empty() && options.from.empty()) return whole;
    if (const auto complaint = find_unknown(whole.lobes, options)) return *complaint;
    std::vector<std::string> names = lobes_from(whole.lobes, options.from);
    names.insert(names.end(), options.lobes.begin(), options.lobes.end());
    ChosenLobes chosen = chosen_lobes(whole.job, whole.lobes, names);
    if (!chosen.left_out.empty()) {
        std::string text = "Left out, and kept clear of as bar: ";
        for (const std::string& name : chosen.left_out)
            text += (&name == &chosen.left_out.front() ? "" : ", ") + name;
        remarks.push_back(text + ".");
    }
    return SolvedJob{std::move(chosen.job), std::move(chosen.lobes)};
}

}  // namespace lobewright::cli
