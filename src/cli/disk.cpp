#include "cli/disk.h"

#include "cli/commands.h"
#include "cli/system/path_text.h"
#include "cli/system/process.h"
#include "cli/system/progress_line.h"
#include "cli/system/reading.h"
#include "cli/system/standing.h"
#include "cli/system/writing.h"

#include <cerrno>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr const char* folder_variable = "LOBEWRIGHT_POSTPROCESSORS";

class DiskText final : public TextSource {
  public:
    explicit DiskText(TextInPieces text) : text_(std::move(text)) {}
    Outcome<std::string_view> next() override { return text_.next(); }
    void rewind() override { text_.rewind(); }

  private:
    TextInPieces text_;
};

Outcome<std::unique_ptr<TextSource>> as_source(Outcome<TextInPieces> text) {
    if (!text) return text.diagnostics();
    return std::unique_ptr<TextSource>(std::make_unique<DiskText>(std::move(text).value()));
}

}  // namespace

Outcome<std::string> Disk::read(const fs::path& path, std::size_t most) {
    return read_whole(path, most);
}
Outcome<std::string> Disk::read_standard_input(std::size_t most) {
    return cli::read_standard_input(most);
}
Outcome<std::unique_ptr<TextSource>> Disk::open(const fs::path& path, std::size_t most) {
    return as_source(TextInPieces::of_file(path, most));
}
Outcome<std::unique_ptr<TextSource>> Disk::open_standard_input(std::size_t most) {
    return as_source(TextInPieces::of_standard_input(most));
}

bool Disk::is_file(const fs::path& path) {
    return standing_at(path).kind == Standing::Kind::file;
}
bool Disk::is_folder(const fs::path& path) {
    return standing_at(path).kind == Standing::Kind::folder;
}
Outcome<bool> Disk::exists(const fs::path& path) {
    const Standing standing = standing_at(path);
    if (standing.error == 0) return standing.kind != Standing::Kind::nothing;
    if (standing.error == ENOTDIR) return false;  // a file stands where its folder would
    return cannot_read(text_of(path), standing.error);
}
bool Disk::same_file(const fs::path& a, const fs::path& b) {
    return cli::same_file(a, b);
}

std::optional<fs::path> Disk::posts_folder() {
    if (const auto named = environment(folder_variable)) return path_of(*named);
    const auto user = user_folder();
    return user ? std::optional(*user / "postprocessors") : std::nullopt;
}
std::vector<fs::path> Disk::in_folder(const fs::path& folder) {
    std::vector<fs::path> all;
    std::error_code failed;
    for (fs::directory_iterator entry(folder, failed); !failed && entry != fs::directory_iterator();
         entry.increment(failed))
        all.push_back(entry->path());
    return all;
}

std::optional<Diagnostic> Disk::write(const std::vector<FileToWrite>& files, bool must_be_new) {
    return write_together(files, must_be_new);
}
std::optional<Diagnostic> Disk::write_standard_output(std::string_view text) {
    return cli::write_standard_output(text);
}
void Disk::say(std::string_view lines) {
    write_standard_error(lines);
}
void Disk::at_work(bool told, const std::function<void()>& work) {
    const ProgressLine line(told);
    work();
}
void Disk::sweep_beside(const fs::path& path) {
    cli::sweep_beside(path);
}

int run(const std::vector<std::string>& arguments) {
    Disk disk;
    return run(arguments, disk);
}

}  // namespace lobewright::cli
