#include "base/text/characters.h"
#include "base/text/json_text.h"
#include "cli/commands.h"
#include "cli/load.h"
#include "cli/post_files.h"

namespace lobewright::cli {
namespace {

struct ListedPost {
    Dialect dialect;
    std::optional<std::filesystem::path> file;
};

std::string posts_text(const std::vector<ListedPost>& posts) {
    std::string text;
    for (const ListedPost& post : posts) {
        text += (text.empty() ? "" : "\n") + dialect_summary(post.dialect);
        if (post.file) text += "  your own: " + printable(post.file->string()) + '\n';
    }
    return text;
}

std::string posts_json(const std::vector<ListedPost>& posts) {
    JsonText json;
    json.object().array("posts");
    for (const ListedPost& post : posts) {
        const auto file = post.file ? std::optional(post.file->string()) : std::nullopt;
        json.object().member("name", post.dialect.name).member("summary", post.dialect.summary);
        json.member("file", file).array("cannot");
        for (const std::string& each : post.dialect.cannot)
            json.item(each);
        json.end().end();
    }
    json.end().end();
    return json.text();
}

std::string names_of(const std::vector<NamedPost>& posts) {
    std::string text;
    for (const NamedPost& post : posts)
        text += printable(post.name) + '\n';
    return text;
}

}  // namespace

Result posts_command(const Options& options, Inputs& inputs) {
    Result result;
    if (!options.show.empty()) {
        const Outcome<std::string> text = post_text(options.show, inputs);
        if (take(text, result)) result.text = *text;
        return result;
    }
    const std::vector<NamedPost> named = named_posts(inputs.files);
    if (options.names) {
        result.text = names_of(named);
        return result;
    }
    std::vector<ListedPost> listed;
    for (const NamedPost& post : named) {
        const Outcome<Dialect> dialect = load_post(post.name, {}, {}, inputs);
        if (take(dialect, result)) listed.push_back({*dialect, post.file});
    }
    result.text = options.json ? posts_json(listed) : posts_text(listed);
    return result;
}

}  // namespace lobewright::cli
