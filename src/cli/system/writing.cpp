#include "cli/system/writing.h"

#include "cli/system/direct_writing.h"
#include "cli/system/path_text.h"
#include "cli/system/standing.h"
#include "cli/system/system_reason.h"
#include "cli/system/temporary_file.h"
#include "cli/system/writing_complaints.h"

#include <cerrno>
#include <memory>
#include <string>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

/// One of the files of a run, ready to take its place.
struct ReadyFile {
    fs::path path, target, folder;
    std::string_view text;
    std::unique_ptr<TemporaryFile> temporary;  // none: it is written to directly
};

ReadyFile written_directly(const FileToWrite& file) {
    return {file.path, file.path, {}, file.text, nullptr};
}

/// Written beside its place.
Outcome<ReadyFile> written_beside(const FileToWrite& file, const Standing& old) {
    const auto target = end_of_links(file.path);
    if (!target) return cannot_write(file.path, errno);
    ReadyFile ready{file.path, *target, folder_of(*target), file.text,
                    std::make_unique<TemporaryFile>(*target)};
    if (old.kind == Standing::Kind::file) ready.temporary->keep(old);
    if (!ready.temporary->fill(file.text)) return cannot_write(file.path, errno);
    return ready;
}

Outcome<ReadyFile> make_ready(const FileToWrite& file, bool must_be_new) {
    const Standing old = standing_at(file.path);
    if (old.error != 0) return cannot_write(file.path, old.error);
    if (must_be_new && old.kind != Standing::Kind::nothing) return already_there(file.path);
    if (old.kind == Standing::Kind::folder) return cannot_write(file.path, EISDIR);
    if (old.kind == Standing::Kind::device) return written_directly(file);
    if (old.protection != 0) return cannot_write(file.path, old.protection);
    return written_beside(file, old);
}

/// False with errno.
bool take_place(const ReadyFile& file, bool must_be_new) {
    if (!file.temporary) return write_directly(file.target, file.text);
    return file.temporary->put_at(file.target, !must_be_new);
}

/// Why the file after the first `done` could not take its place, and what stands where now.
Diagnostic stopped_at(const std::vector<ReadyFile>& files, std::size_t done, int error) {
    const fs::path& path = files[done].path;
    if (error == EEXIST && done == 0) return already_there(path);
    if (done == 0) return cannot_write(path, error);
    std::string names;
    for (std::size_t i = 0; i < done; ++i)
        names += (i == 0 ? "" : ", ") + text_of(files[i].path);
    return not_written(path, system_reason(error),
                       names + (done == 1 ? " is the new one already" : " are the new ones already") +
                           ", this" + (done + 1 < files.size() ? " and those after it are" : " is") +
                           " as before: run it again once there is room");
}

std::optional<Diagnostic> place_all(const std::vector<ReadyFile>& files, bool must_be_new) {
    for (std::size_t i = 0; i < files.size(); ++i) {
        if (!take_place(files[i], must_be_new)) return stopped_at(files, i, errno);
    }
    const fs::path* flushed = nullptr;
    for (const ReadyFile& file : files) {
        if (!file.temporary || (flushed != nullptr && *flushed == file.folder)) continue;
        if (!flush_folder(file.folder)) {
            return Diagnostic{
                Fault::unreadable,
                Severity::error,
                "not-flushed",
                "is written, but may be lost if the power fails now (" + system_reason(errno) + ")",
                "look after the disk, and run it again",
                {text_of(file.path)}};
        }
        flushed = &file.folder;
    }
    return std::nullopt;
}

bool has_target(const std::vector<ReadyFile>& files, const fs::path& target) {
    for (const ReadyFile& file : files) {
        if (file.temporary && file.target == target) return true;
    }
    return false;
}

}  // namespace

std::optional<Diagnostic> write_together(const std::vector<FileToWrite>& files, bool must_be_new) {
    std::vector<ReadyFile> ready;
    for (const FileToWrite& file : files) {
        Outcome<ReadyFile> one = make_ready(file, must_be_new);
        if (!one) return one.diagnostics().front();
        if (has_target(ready, one->target)) return one_name_twice(file.path);
        ready.push_back(std::move(one).value());
    }
    return place_all(ready, must_be_new);
}

std::optional<Diagnostic> write_whole(const fs::path& path, std::string_view text, bool must_be_new) {
    return write_together({{path, text}}, must_be_new);
}

void sweep_beside(const fs::path& path) {
    if (const std::optional<fs::path> target = end_of_links(path)) sweep_left_overs(*target);
}

std::optional<Diagnostic> write_standard_output(std::string_view text) {
    if (write_to_standard_output(text)) return std::nullopt;
    Diagnostic failure = cannot_write("standard output", errno);
    failure.remedy = "make room, or name a file with -o";
    return failure;
}

fs::path folder_of(const fs::path& file) {
    return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

}  // namespace lobewright::cli
