#include "cli/system/reading.h"

#include "cli/system/open_file.h"
#include "cli/system/path_text.h"
#include "cli/system/system_reason.h"

#include <utility>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

constexpr std::size_t piece_size = std::size_t{1} << 16;

/// The rest of an open file, after `text`.
Outcome<std::string> read_rest(const OpenFile& file, const std::string& name, std::size_t most,
                               std::string text = {}) {
    while (text.size() <= most) {
        const Outcome<std::string> piece = read_some(file, name, piece_size);
        if (!piece) return piece.diagnostics();
        if (piece->empty()) return text;
        text += *piece;
    }
    return too_large(name, most);
}

}  // namespace

Diagnostic not_read(const std::string& name, const std::string& reason, const std::string& remedy) {
    return {Fault::unreadable, Severity::error, "not-read", "can't be read (" + reason + ")", remedy, {name}};
}

Diagnostic cannot_read(const std::string& name, int error) {
    return not_read(name, system_reason(error));
}

Diagnostic too_large(const std::string& name, std::size_t most) {
    return not_read(name, "it is larger than " + std::to_string(most >> 20) + " MiB");
}

Outcome<std::string> read_whole(const fs::path& path, std::size_t most) {
    std::string begun;
    const Outcome<OpenFile> file = open_to_read(path, begun);
    if (!file) return file.diagnostics();
    return read_rest(*file, text_of(path), most, std::move(begun));
}

Outcome<std::string> read_standard_input(std::size_t most) {
    return read_rest(open_standard_input(), standard_input, most);
}

Outcome<TextInPieces> TextInPieces::of_file(const fs::path& path, std::size_t most) {
    std::string begun;
    Outcome<OpenFile> file = open_to_read(path, begun);
    if (!file) return file.diagnostics();
    return open(std::move(file).value(), text_of(path), most, std::move(begun));
}

Outcome<TextInPieces> TextInPieces::of_standard_input(std::size_t most) {
    return open(open_standard_input(), standard_input, most, {});
}

Outcome<TextInPieces> TextInPieces::open(OpenFile file, std::string name, std::size_t most,
                                         std::string begun) {
    TextInPieces text(std::make_unique<OpenFile>(std::move(file)), std::move(name), most);
    Outcome<std::string> first =
        begun.empty() ? read_some(*text.file_, text.name_, piece_size) : std::move(begun);
    if (!first) return first.diagnostics();
    text.first_ = std::move(first).value();
    return text;
}

TextInPieces::TextInPieces(std::unique_ptr<OpenFile> file, std::string name, std::size_t most)
    : file_(std::move(file)), name_(std::move(name)), most_(most), start_(place_in(*file_)) {}
TextInPieces::TextInPieces(TextInPieces&&) noexcept = default;
TextInPieces::~TextInPieces() = default;

Outcome<std::string_view> TextInPieces::next() {
    if (lost_) return not_read(name_, "it can't be read a second time");
    if (next_kept_ < kept_.size()) return std::string_view(kept_[next_kept_++]);
    Outcome<std::string> read =
        first_ ? *std::exchange(first_, std::nullopt) : read_some(*file_, name_, piece_size);
    if (!read) return read.diagnostics();
    size_ += read->size();
    if (size_ > most_) return too_large(name_, most_);
    piece_ = std::move(read).value();
    if (start_ >= 0 || piece_.empty()) return std::string_view(piece_);
    kept_.push_back(std::move(piece_));
    next_kept_ = kept_.size();
    return std::string_view(kept_.back());
}

void TextInPieces::rewind() {
    next_kept_ = 0;
    if (start_ < 0) return;
    lost_ = !return_to(*file_, start_);
    size_ = 0;
    first_.reset();
}

}  // namespace lobewright::cli
