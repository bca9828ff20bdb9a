#include "guide_dialect.h"

#include "program.h"

std::string guide_dialect_text() {
    const std::string guide = file_text(source_folder() / "postprocessors/README.md");
    const std::string fence = "```toml\n[axes]";
    const std::size_t from = guide.find(fence) + std::string("```toml\n").size();
    const std::string shown = guide.substr(from, guide.find("```", from) - from);
    return "layout = 1\nsummary = \"the guide's own\"\n" + shown +
           "\n[feed]\nmode = \"inverse-time\"\ninverse_time = \"G93\"\n";
}
