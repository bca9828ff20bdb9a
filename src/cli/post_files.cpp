#include "cli/post_files.h"

#include "cli/load.h"

#include <algorithm>

namespace fs = std::filesystem;

namespace lobewright::cli {
namespace {

/// The folder of the running program, links followed.
fs::path program_folder() {
    std::error_code failed;
    const fs::path program = fs::read_symlink("/proc/self/exe", failed);
    return failed ? fs::path{} : program.parent_path();
}

fs::path posts_folder() {
    const fs::path here = program_folder();
    std::error_code ignored;
    for (const fs::path& folder : {here / "postprocessors", here / LOBEWRIGHT_POSTS_FROM_PROGRAM}) {
        if (fs::is_directory(folder, ignored)) return folder;
    }
    return {};
}

bool is_path(const std::string& word) {
    return word.find('/') != std::string::npos || word.ends_with(".toml");
}

std::vector<std::string> names_of(const std::vector<PostFile>& posts) {
    std::vector<std::string> names;
    for (const PostFile& post : posts)
        names.push_back(post.name);
    return names;
}

/// The file of the shipped post of that name, or the complaint at `place`.
Outcome<fs::path> find_shipped(const std::string& name, const Place& place) {
    const fs::path path = posts_folder() / (name + ".toml");
    std::error_code ignored;
    if (!name.empty() && !is_path(name) && fs::exists(path, ignored)) return path;
    return unknown_name("post-processor", name, names_of(shipped_posts()), place);
}

}  // namespace

std::vector<PostFile> shipped_posts() {
    std::vector<PostFile> posts;
    const fs::path folder = posts_folder();
    std::error_code failed;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder, failed)) {
        if (entry.path().extension() == ".toml")
            posts.push_back({entry.path().stem().string(), entry.path()});
    }
    std::sort(posts.begin(), posts.end(),
              [](const PostFile& a, const PostFile& b) { return a.name < b.name; });
    return posts;
}

Outcome<Dialect> load_post(const std::string& word, const fs::path& folder, const Place& place,
                           std::vector<fs::path>& inputs) {
    fs::path path = folder / word;
    std::string shown = path.string();
    if (!is_path(word)) {
        const Outcome<fs::path> shipped = find_shipped(word, place);
        if (!shipped) return shipped.diagnostics();
        path = *shipped;
        shown = path.filename().string();
    }
    const Outcome<std::string> text = read_file(path, inputs);
    if (!text) return text.diagnostics();
    return read_dialect(*text, shown);
}

Outcome<Dialect> load_post_of(const Job& job, const std::string& wanted, std::vector<fs::path>& inputs) {
    if (!wanted.empty()) return load_post(wanted, {}, Place{"lobewright --post"}, inputs);
    return load_post(job.machine->post, fs::path(job.file).parent_path(), job.place_of("machine.post"),
                     inputs);
}

Outcome<std::string> post_text(const std::string& name) {
    const Outcome<fs::path> shipped = find_shipped(name, Place{"lobewright --show"});
    if (!shipped) return shipped.diagnostics();
    std::vector<fs::path> inputs;
    return read_file(*shipped, inputs);
}

}  // namespace lobewright::cli
