#include "cli/load.h"

#include "base/document.h"
#include "cli/system_reason.h"

#include <lobewright/job_file.h>
#include <lobewright/plausibility.h>

#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr std::size_t largest_file = std::size_t{256} << 20;

Diagnostic cannot_read(const std::string& path, const std::string& reason) {
    return {Fault::unreadable,
            Severity::error,
            "not-read",
            "can't be read (" + reason + ")",
            "check the name and the folder",
            {path}};
}

/// The rest of an open file.
Outcome<std::string> read_open(int file, const std::string& name) {
    std::string text;
    std::string piece(std::size_t{1} << 16, '\0');
    for (;;) {
        const ssize_t size = ::read(file, piece.data(), piece.size());
        if (size < 0 && errno == EINTR) continue;
        if (size < 0) return cannot_read(name, system_reason(errno));
        if (size == 0) return text;
        text.append(piece, 0, static_cast<std::size_t>(size));
        if (text.size() > largest_file) return cannot_read(name, "it is larger than 256 MiB");
    }
}

}  // namespace

Outcome<std::string> read_file(const fs::path& path, std::vector<fs::path>& inputs) {
    if (path == "-") return read_open(STDIN_FILENO, "standard input");
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY);
    if (file < 0) return cannot_read(path.string(), system_reason(errno));
    inputs.push_back(path);
    Outcome<std::string> text = read_open(file, path.string());
    ::close(file);
    return text;
}

Outcome<Job> load_job(const std::string& path, std::vector<fs::path>& inputs) {
    const Outcome<std::string> text = read_file(path, inputs);
    if (!text) return text.diagnostics();
    const fs::path folder = fs::path(path).parent_path();
    return read_job(*text, path == "-" ? "standard input" : path,
                    [&](const std::string& neighbour) { return read_file(folder / neighbour, inputs); });
}

Outcome<SolvedJob> load_solved_job(const std::string& path, std::vector<fs::path>& inputs,
                                   std::optional<Purpose> purpose) {
    Outcome<Job> job = load_job(path, inputs);
    if (!job) return job.diagnostics();
    Outcome<std::vector<SolvedLobe>> lobes = solve_lobes(*job);
    Diagnostics messages = job.diagnostics();
    if (purpose) append(messages, unmet_needs(*job, *purpose));
    append(messages, lobes.diagnostics());
    append(messages, implausible_figures(*job, lobes ? *lobes : std::vector<SolvedLobe>{}));
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

}  // namespace lobewright::cli
