#include "program.h"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

namespace fs = std::filesystem;

std::string file_text(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) throw std::runtime_error("can't read " + path.string());
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

void write_file(const fs::path& path, const std::string& text) {
    std::ofstream out(path, std::ios::binary);
    out << text;
    out.close();
    if (!out) throw std::runtime_error("can't write " + path.string());
}

TemporaryFolder::TemporaryFolder() {
    std::string name = (fs::temp_directory_path() / "lobewright-test-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("can't make a folder for the test");
    path_ = name;
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
}

fs::path built_program() {
    return LOBEWRIGHT_PROGRAM;
}

fs::path source_folder() {
    return LOBEWRIGHT_SOURCE_DIR;
}

Run run_command(const std::vector<std::string>& command, const fs::path& folder) {
    const TemporaryFolder captured;
    const fs::path out = captured.path() / "out";
    const fs::path err = captured.path() / "err";
    const char* old_path = std::getenv("PATH");
    const std::string path =
        built_program().parent_path().string() + ":" + (old_path != nullptr ? old_path : "");
    std::fflush(nullptr);  // or the child would write our own unwritten output too
    const pid_t child = fork();
    if (child < 0) throw std::runtime_error("can't start " + command.front());
    if (child == 0) {
        std::vector<char*> argv;
        for (const std::string& word : command)
            argv.push_back(const_cast<char*>(word.c_str()));
        argv.push_back(nullptr);
        setenv("PATH", path.c_str(), 1);
        // What the person who runs the tests has set up for themselves is not for us.
        unsetenv("LOBEWRIGHT_POSTPROCESSORS");
        setenv("XDG_CONFIG_HOME", "/no-such-folder", 1);
        if (chdir(folder.c_str()) != 0 || freopen(out.c_str(), "wb", stdout) == nullptr ||
            freopen(err.c_str(), "wb", stderr) == nullptr || freopen("/dev/null", "rb", stdin) == nullptr) {
            _exit(126);
        }
        execvp(argv.front(), argv.data());
        _exit(127);
    }
    int status = 0;
    if (waitpid(child, &status, 0) != child) throw std::runtime_error("lost " + command.front());
    const int code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    return {code, file_text(out), file_text(err)};
}

Run run_shell(const std::string& line, const fs::path& folder) {
    return run_command({"sh", "-c", line}, folder);
}

bool is_installed(const std::string& program) {
    return run_shell("command -v " + program).exit_code == 0;
}

Run run_program(const std::vector<std::string>& arguments, const fs::path& folder) {
    std::vector<std::string> command{built_program()};
    command.insert(command.end(), arguments.begin(), arguments.end());
    return run_command(command, folder);
}
