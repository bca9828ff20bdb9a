#include "base/json_text.h"
#include "cli/commands.h"
#include "cli/load.h"
#include "cli/post_files.h"

namespace lobewright::cli {
namespace {

std::string posts_text(const std::vector<Dialect>& dialects) {
    std::string text;
    for (const Dialect& dialect : dialects)
        text += (text.empty() ? "" : "\n") + dialect_summary(dialect);
    return text;
}

std::string posts_json(const std::vector<Dialect>& dialects) {
    JsonText json;
    json.object().array("posts");
    for (const Dialect& dialect : dialects) {
        json.object().member("name", dialect.name).member("summary", dialect.summary);
        json.array("cannot");
        for (const std::string& each : dialect.cannot)
            json.item(each);
        json.end().end();
    }
    json.end().end();
    return json.text();
}

}  // namespace

Result posts_command(const Options& options) {
    Result result;
    if (!options.show.empty()) {
        const Outcome<std::string> text = post_text(options.show);
        if (take(text, result)) result.text = *text;
        return result;
    }
    std::vector<Dialect> dialects;
    for (const PostFile& post : shipped_posts()) {
        const Outcome<Dialect> dialect = load_post(post.name, {}, {}, result.inputs);
        if (take(dialect, result)) dialects.push_back(*dialect);
    }
    result.text = options.json ? posts_json(dialects) : posts_text(dialects);
    return result;
}

}  // namespace lobewright::cli
