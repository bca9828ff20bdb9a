#include "job_kit.h"

#include "program.h"

#include <lobewright/job_file.h>

#include <algorithm>
#include <cstddef>
#include <stdexcept>

using namespace lobewright;

Dialect shipped_dialect(const std::string& name) {
    const auto file = source_folder() / "postprocessors" / (name + ".toml");
    return taken(read_dialect(file_text(file), file.string()));
}

const std::vector<std::string>& shipped_names() {
    static const std::vector<std::string> names = {"rs274ngc-xza", "rs274ngc-zxa", "rs274ngc-yxa",
                                                   "rs274ngc-xzc", "iso6983-xzc",  "plain-xa"};
    return names;
}

std::string example_text(const std::string& name) {
    return file_text(source_folder() / "examples" / (name + ".toml"));
}

Job example_job(const std::string& name) {
    const auto neighbour = [](const std::string& beside) {
        return Outcome<std::string>(file_text(source_folder() / "examples" / beside));
    };
    return taken(read_job(example_text(name), name + ".toml", neighbour));
}

std::string with(std::string text, const std::string& part, const std::string& by) {
    const std::size_t at = text.find(part);
    if (at == std::string::npos || text.find(part, at + 1) != std::string::npos)
        throw std::invalid_argument("not exactly once in the text: " + part);
    return text.replace(at, part.size(), by);
}

int line_of(const std::string& text, const std::string& part) {
    const std::size_t at = text.find(part);
    if (at == std::string::npos) throw std::invalid_argument("not in the text: " + part);
    return 1 +
           static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}
