/// A text in pieces has the lines of the whole text.
#include "proof/reader/line_cutter.h"

#include "catch.h"

#include <vector>

using lobewright::proof::LineCutter;

TEST_CASE("lines are the same wherever a text is cut into pieces") {
    const std::string text = "G0 X1\r\nG1 X2\n\n\r\nM30\rX\nlast";
    const std::vector<std::string> expected{"G0 X1", "G1 X2", "", "", "M30\rX", "last"};
    for (std::size_t size = 1; size <= text.size(); ++size) {
        LineCutter cutter;
        std::vector<std::string> lines;
        const auto take = [&](std::string_view line) {
            lines.emplace_back(line);
            return true;
        };
        for (std::size_t at = 0; at < text.size(); at += size)
            cutter.cut(std::string_view(text).substr(at, size), take);
        cutter.finish(take);
        CAPTURE(size);
        CHECK(lines == expected);
    }
}

TEST_CASE("a line that is not ended keeps its carriage return, and one visit may be the last") {
    LineCutter cutter;
    std::vector<std::string> lines;
    CHECK_FALSE(cutter.cut("a\nb\nc\r", [&](std::string_view line) {
        lines.emplace_back(line);
        return line != "b";
    }));
    CHECK(lines == std::vector<std::string>{"a", "b"});
    LineCutter open;
    open.cut("c\r", [](std::string_view) { return true; });
    open.finish([&](std::string_view line) {
        lines.emplace_back(line);
        return true;
    });
    CHECK(lines.back() == "c\r");
}
