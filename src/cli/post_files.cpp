#include "cli/post_files.h"

#include "cli/load.h"
#include "cli/system/path_text.h"

#include <lobewright/shipped_dialects.h>

#include <algorithm>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

bool is_path(const std::string& word) {
    return word.find('/') != std::string::npos || word.ends_with(".toml");
}

bool goes_before(const NamedPost& a, const NamedPost& b) {
    return a.name < b.name;
}

std::vector<NamedPost> own_posts(Files& files) {
    std::vector<NamedPost> posts;
    const auto folder = files.posts_folder();
    if (!folder) return posts;
    for (const fs::path& path : files.in_folder(*folder)) {
        if (path.extension() == ".toml") posts.push_back({text_of(path.stem()), path});
    }
    std::sort(posts.begin(), posts.end(), goes_before);
    return posts;
}

Diagnostic unknown_post(const std::string& name, const Place& place, Files& files) {
    std::vector<std::string> names;
    for (const NamedPost& post : named_posts(files))
        names.push_back(post.name);
    Diagnostic complaint = unknown_name("post-processor", name, names, place);
    const auto folder = files.posts_folder();
    if (folder) {
        complaint.remedy += "; looked in " + text_of(*folder) +
                            (files.is_folder(*folder) ? "" : " (there is no such folder)") +
                            " and inside the program";
    } else {
        complaint.remedy += "; looked inside the program";
    }
    return complaint;
}

/// The file of the user's own post of that name; nothing where there is none. What keeps us from knowing is a
/// failure.
Outcome<std::optional<fs::path>> find_own(const std::string& name, Files& files) {
    const auto folder = files.posts_folder();
    if (!folder || is_path(name)) return std::optional<fs::path>();
    const fs::path path = *folder / path_of(name + ".toml");
    const Outcome<bool> there = files.exists(path);
    if (!there) return there.diagnostics();
    return *there ? std::optional(path) : std::nullopt;
}

std::optional<std::string_view> find_shipped(const std::string& name) {
    const auto shipped = shipped_dialects();
    const auto found = std::find_if(shipped.begin(), shipped.end(),
                                    [&](const ShippedDialect& each) { return each.name == name; });
    return found == shipped.end() ? std::nullopt : std::optional(found->text);
}

/// A text, and the name of its file.
struct PostText {
    std::string text;
    std::string file;
};

Outcome<PostText> read_post(const fs::path& path, Inputs& inputs) {
    const Outcome<std::string> text = read_toml(path, inputs);
    if (!text) return text.diagnostics();
    return PostText{*text, text_of(path)};
}

Outcome<PostText> find_post(const std::string& name, const Place& place, Inputs& inputs) {
    const Outcome<std::optional<fs::path>> own = find_own(name, inputs.files);
    if (!own) return own.diagnostics();
    if (*own) return read_post(**own, inputs);
    if (const auto shipped = find_shipped(name)) return PostText{std::string(*shipped), name + ".toml"};
    return unknown_post(name, place, inputs.files);
}

}  // namespace

std::vector<NamedPost> named_posts(Files& files) {
    std::vector<NamedPost> posts = own_posts(files);
    std::vector<NamedPost> shipped;
    for (const ShippedDialect& each : shipped_dialects()) {
        NamedPost post{std::string(each.name), std::nullopt};
        if (!std::binary_search(posts.begin(), posts.end(), post, goes_before))
            shipped.push_back(std::move(post));
    }
    posts.insert(posts.end(), shipped.begin(), shipped.end());
    std::sort(posts.begin(), posts.end(), goes_before);
    return posts;
}

Outcome<Dialect> load_post(const std::string& word, const fs::path& folder, const Place& place,
                           Inputs& inputs) {
    const Outcome<PostText> post =
        is_path(word) ? read_post(folder / path_of(word), inputs) : find_post(word, place, inputs);
    if (!post) return post.diagnostics();
    return read_dialect(post->text, post->file);
}

Outcome<Dialect> load_post_of(const Job& job, const std::string& wanted, Inputs& inputs) {
    if (!wanted.empty()) return load_post(wanted, {}, Place{"lobewright --post"}, inputs);
    return load_post(job.machine->post, path_of(job.file).parent_path(), job.place_of("machine.post"),
                     inputs);
}

Outcome<std::string> post_text(const std::string& name, Inputs& inputs) {
    const Outcome<PostText> post = find_post(name, Place{"lobewright --show"}, inputs);
    if (!post) return post.diagnostics();
    return post->text;
}

}  // namespace lobewright::cli
