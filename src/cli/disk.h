/// The files and standard streams of this process.
#pragma once

#include "cli/files.h"

namespace lobewright::cli {

/// The user's own post-processors lie in the folder that the variable LOBEWRIGHT_POSTPROCESSORS of the
/// environment names, else in postprocessors/ in the user's folder of this program.
class Disk final : public Files {
  public:
    Outcome<std::string> read(const std::filesystem::path& path, std::size_t most) override;
    Outcome<std::string> read_standard_input(std::size_t most) override;
    Outcome<std::unique_ptr<TextSource>> open(const std::filesystem::path& path, std::size_t most) override;
    Outcome<std::unique_ptr<TextSource>> open_standard_input(std::size_t most) override;
    bool is_file(const std::filesystem::path& path) override;
    bool is_folder(const std::filesystem::path& path) override;
    Outcome<bool> exists(const std::filesystem::path& path) override;
    bool same_file(const std::filesystem::path& a, const std::filesystem::path& b) override;
    std::optional<std::filesystem::path> posts_folder() override;
    std::vector<std::filesystem::path> in_folder(const std::filesystem::path& folder) override;
    std::optional<Diagnostic> write(const std::vector<FileToWrite>& files, bool must_be_new) override;
    std::optional<Diagnostic> write_standard_output(std::string_view text) override;
    void say(std::string_view lines) override;
    void sweep_beside(const std::filesystem::path& path) override;
};

}  // namespace lobewright::cli
