/// A folder with a job in it, to run the program there.
#pragma once

#include "program.h"

#include <iterator>

/// A folder with `job.toml` in it.
class JobFolder {
  public:
    explicit JobFolder(const std::string& job) { write_file(folder_.path() / "job.toml", job); }
    [[nodiscard]] Run run(const std::vector<std::string>& arguments) const {
        return run_program(arguments, folder_.path());
    }
    [[nodiscard]] Run shell(const std::string& line) const { return run_shell(line, folder_.path()); }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const {
        return folder_.path() / name;
    }
    [[nodiscard]] std::size_t files() const {
        return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder_.path()),
                                                      std::filesystem::directory_iterator()));
    }

  private:
    TemporaryFolder folder_;
};
