/// Files that are texts in memory.
#pragma once

#include "cli/files.h"
#include "cli/text_run.h"

namespace lobewright::cli {

/// Messages and names as on the disk; nobody has post-processors of his own, and no file is left behind.
class TextFiles final : public Files {
  public:
    explicit TextFiles(Texts texts);

    Outcome<std::string> read(const std::filesystem::path& path, std::size_t most) override;
    Outcome<std::string> read_standard_input(std::size_t most) override;
    Outcome<std::unique_ptr<TextSource>> open(const std::filesystem::path& path, std::size_t most) override;
    Outcome<std::unique_ptr<TextSource>> open_standard_input(std::size_t most) override;
    bool is_file(const std::filesystem::path& path) override;
    bool is_folder(const std::filesystem::path& path) override;
    Outcome<bool> exists(const std::filesystem::path& path) override;
    bool same_file(const std::filesystem::path& a, const std::filesystem::path& b) override;
    std::optional<std::filesystem::path> posts_folder() override { return std::nullopt; }
    std::vector<std::filesystem::path> in_folder(const std::filesystem::path& folder) override;
    std::optional<Diagnostic> write(const std::vector<FileToWrite>& files, bool must_be_new) override;
    std::optional<Diagnostic> write_standard_output(std::string_view text) override;
    void say(std::string_view lines) override;
    void sweep_beside(const std::filesystem::path& /*unused*/) override {}

    /// What was written, and what was said.
    Texts written;
    std::string out, err;

  private:
    /// The system's error number for a path that leads to no file.
    int reason_against(const std::filesystem::path& path);

    std::string input_;  // standard input
    Texts texts_;
};

}  // namespace lobewright::cli
