#include "traced_run.h"

#include "lines.h"

#include <map>

namespace {

std::vector<std::string> strace(const std::vector<std::string>& options,
                                const std::vector<std::string>& arguments) {
    // A program built to find leaks can't look for them while it is traced.
    std::vector<std::string> command{"strace", "-E", "ASAN_OPTIONS=detect_leaks=0"};
    command.insert(command.end(), options.begin(), options.end());
    command.push_back(built_program());
    command.insert(command.end(), arguments.begin(), arguments.end());
    return command;
}

/// "openat" of "openat(AT_FDCWD, ...) = 3".
std::string name_of(const std::string& line) {
    return line.substr(0, line.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_"));
}

}  // namespace

bool can_trace() {
    return run_command({"strace", "-o", "/dev/null", "true"}).exit_code == 0;
}

std::vector<SystemCall> calls_of(const JobFolder& folder, const std::vector<std::string>& arguments) {
    const TemporaryFolder elsewhere;
    const std::string log = (elsewhere.path() / "log").string();
    run_command(strace({"-o", log}, arguments), (folder / "").parent_path());
    std::vector<SystemCall> calls;
    std::map<std::string, int> counts;
    bool started = false;
    for (const std::string& line : lines_of(file_text(log))) {
        const std::string name = name_of(line);
        started = started || line.starts_with("openat(AT_FDCWD, \"job.toml\"");
        // brk fails by leaving things as they are, which can't be brought about; the others never come back.
        if (name.empty() || name == "brk" || name == "execve" || name == "exit_group") continue;
        calls.push_back({name, ++counts[name], started});
    }
    return calls;
}

Run traced_run(const JobFolder& folder, const std::vector<std::string>& arguments, const SystemCall& call,
               const std::string& what_happens) {
    const std::string inject =
        "inject=" + call.name + ":" + what_happens + ":when=" + std::to_string(call.count);
    return run_command(strace({"-o", "/dev/null", "-e", inject}, arguments), (folder / "").parent_path());
}
