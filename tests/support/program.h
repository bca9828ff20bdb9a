/// Runs the built program as a user would, and reads and writes files for tests.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

/// What a run left: its exit code and both outputs, whole.
struct Run {
    int exit_code = -1;
    std::string out;
    std::string err;
};

/// Runs the `lobewright` program with `arguments` in the folder `folder` (nothing is interpreted by a shell).
Run run_program(const std::vector<std::string>& arguments, const std::filesystem::path& folder = ".");
/// Runs any program found on PATH, where ours stands first. It finds no settings of the user's own: those
/// folders are not there.
Run run_command(const std::vector<std::string>& command, const std::filesystem::path& folder = ".");
/// Runs a line as sh takes it.
Run run_shell(const std::string& line, const std::filesystem::path& folder = ".");
bool is_installed(const std::string& program);

/// The whole file; fails the test's program with an exception that names it if it can't be read.
std::string file_text(const std::filesystem::path& path);
void write_file(const std::filesystem::path& path, const std::string& text);

/// A fresh folder that goes when the object goes.
class TemporaryFolder {
  public:
    TemporaryFolder();
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

/// The program that was built.
std::filesystem::path built_program();
/// The project's own folder, for its examples and post-processors.
std::filesystem::path source_folder();
