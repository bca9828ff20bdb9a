#include "cli/text_files.h"

#include "cli/commands.h"
#include "cli/system/open_file.h"
#include "cli/system/path_text.h"
#include "cli/system/reading.h"
#include "cli/system/writing_complaints.h"

#include <cerrno>
#include <utility>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

/// One name for all spellings of a path: "./a/../job.toml" is "job.toml".
std::string key_of(const fs::path& path) {
    const std::u8string name = path.lexically_normal().generic_u8string();
    return {name.begin(), name.end()};
}

/// A text in one piece.
class WholeText final : public TextSource {
  public:
    explicit WholeText(std::string text) : text_(std::move(text)) {}
    Outcome<std::string_view> next() override {
        return std::exchange(given_, true) ? std::string_view() : std::string_view(text_);
    }
    void rewind() override { given_ = false; }

  private:
    std::string text_;
    bool given_ = false;
};

Outcome<std::unique_ptr<TextSource>> as_source(Outcome<std::string> text) {
    if (!text) return text.diagnostics();
    return std::unique_ptr<TextSource>(std::make_unique<WholeText>(std::move(text).value()));
}

Outcome<std::string> at_most(const std::string& text, const std::string& name, std::size_t most) {
    if (text.size() > most) return too_large(name, most);
    return text;
}

}  // namespace

TextFiles::TextFiles(Texts texts) {
    err.reserve(200);  // so that it can be said that there is no memory left
    for (auto& each : texts)
        (each.first == "-" ? input_ : texts_[key_of(path_of(each.first))]) = std::move(each.second);
}

int TextFiles::reason_against(const fs::path& path) {
    if (is_folder(path)) return EISDIR;
    for (fs::path folder = path.parent_path(); !folder.empty(); folder = folder.parent_path()) {
        if (is_file(folder)) return ENOTDIR;
        if (folder == folder.parent_path()) break;  // the root
    }
    return ENOENT;
}

Outcome<std::string> TextFiles::read(const fs::path& path, std::size_t most) {
    const auto found = texts_.find(key_of(path));
    if (found != texts_.end()) return at_most(found->second, text_of(path), most);
    return cannot_read(text_of(path), reason_against(path));
}
Outcome<std::string> TextFiles::read_standard_input(std::size_t most) {
    return at_most(input_, standard_input, most);
}
Outcome<std::unique_ptr<TextSource>> TextFiles::open(const fs::path& path, std::size_t most) {
    return as_source(read(path, most));
}
Outcome<std::unique_ptr<TextSource>> TextFiles::open_standard_input(std::size_t most) {
    return as_source(read_standard_input(most));
}

bool TextFiles::is_file(const fs::path& path) {
    return texts_.contains(key_of(path));
}
bool TextFiles::is_folder(const fs::path& path) {
    return !in_folder(path).empty();
}
Outcome<bool> TextFiles::exists(const fs::path& path) {
    return is_file(path) || is_folder(path);
}
bool TextFiles::same_file(const fs::path& a, const fs::path& b) {
    return is_file(a) && key_of(a) == key_of(b);
}

std::vector<fs::path> TextFiles::in_folder(const fs::path& folder) {
    std::vector<fs::path> all;
    const std::string name = key_of(folder / "");
    for (const auto& [each, text] : texts_) {
        if (name == "./" || (!name.empty() && each.starts_with(name))) all.push_back(path_of(each));
    }
    return all;
}

std::optional<Diagnostic> TextFiles::write(const std::vector<FileToWrite>& files, bool must_be_new) {
    Texts fresh;
    for (const auto& [path, text] : files) {
        if (must_be_new && *exists(path)) return already_there(path);
        if (const int reason = reason_against(path); reason != ENOENT) return cannot_write(path, reason);
        if (!fresh.emplace(key_of(path), text).second) return one_name_twice(path);
    }
    for (const auto& [key, text] : fresh)
        texts_[key] = written[key] = text;
    return std::nullopt;
}
std::optional<Diagnostic> TextFiles::write_standard_output(std::string_view text) {
    out += text;
    return std::nullopt;
}
void TextFiles::say(std::string_view lines) {
    err += lines;
}

TextRun run_on_texts(const std::vector<std::string>& arguments, Texts files) {
    KnownShapes none;
    return run_on_texts(arguments, std::move(files), none);
}

TextRun run_on_texts(const std::vector<std::string>& arguments, Texts files, KnownShapes& shapes) {
    TextFiles texts(std::move(files));
    const int code = run(arguments, texts, shapes);
    return {code, std::move(texts.out), std::move(texts.err), std::move(texts.written)};
}

}  // namespace lobewright::cli
