#include "catch.h"

#include <lobewright/diagnostic.h>

using namespace lobewright;

namespace {

Diagnostic complaint(const std::string& code, const std::string& what, int line,
                     const std::string& cause = {}) {
    return {Fault::bad_input, Severity::error, code, what, "mend it", {"job.toml", line, 1}, cause};
}

std::vector<std::string> texts(const Diagnostics& diagnostics) {
    std::vector<std::string> found;
    for (const Diagnostic& each : told_once(diagnostics))
        found.push_back(to_text(each));
    return found;
}

}  // namespace

TEST_CASE("one mistake in sixty-four lobes is told in one line, with how many more and down to where") {
    Diagnostics all;
    for (int i = 0; i < 64; ++i)
        all.push_back(complaint("missing-key", "'lobe[" + std::to_string(i) + "]' has no 'width'", 10 + i));
    CHECK(texts(all) == std::vector<std::string>{"job.toml:10:1: 'lobe[0]' has no 'width': mend it (and 63 "
                                                 "more like it, to line 73)"});
}

TEST_CASE("figures and names may differ where the cause is the same") {
    CHECK(texts({complaint("overlap", "lobe 'a' overlaps lobe 'b'", 5, "lobe.z"),
                 complaint("overlap", "lobe 'c' overlaps lobe 'd'", 9, "lobe.z")}) ==
          std::vector<std::string>{
              "job.toml:5:1: lobe 'a' overlaps lobe 'b': mend it (and 1 more like it, to line 9)"});
    const Diagnostics same_key{complaint("undercut", "by 1 mm", 5, "profile.a.base_radius"),
                               complaint("undercut", "by 2 mm", 5, "profile.a.base_radius")};
    CHECK(texts(same_key) == std::vector<std::string>{"job.toml:5:1: by 1 mm: mend it (and 1 more like it)"});
}

TEST_CASE("complaints that differ in code, cause, severity, file or wording are all told, in their order") {
    Diagnostic warning = complaint("a", "x", 3);
    warning.severity = Severity::warning;
    Diagnostic elsewhere = complaint("a", "x", 3);
    elsewhere.place.file = "traced.csv";
    const Diagnostics all{complaint("a", "x", 3),
                          complaint("b", "z", 3),
                          complaint("a", "y", 3),
                          complaint("a", "x", 3, "other"),
                          warning,
                          elsewhere};
    Diagnostics told = told_once(all);
    REQUIRE(told.size() == 5);  // with another cause alone it reads the same, word for word
    CHECK(told[2].what == "y");
    CHECK(told[3].severity == Severity::warning);
    CHECK(told[4].place.file == "traced.csv");
    for (const Diagnostic& each : told)
        CHECK(each.remedy == "mend it");
}

TEST_CASE("the same complaint twice is one, and a complaint without a remedy takes the count itself") {
    CHECK(texts({complaint("a", "x", 3), complaint("a", "x", 3)}) ==
          std::vector<std::string>{"job.toml:3:1: x: mend it"});
    Diagnostic bare = complaint("a", "x", 3), other = complaint("a", "x", 4);
    bare.remedy.clear();
    other.remedy.clear();
    CHECK(texts({bare, other}) ==
          std::vector<std::string>{"job.toml:3:1: x (and 1 more like it, to line 4)"});
    CHECK(told_once({}).empty());
}

TEST_CASE("a list's numbers, and nothing else in brackets, are left out of a cause") {
    CHECK(without_list_numbers("lobe[3].z") == "lobe.z");
    CHECK(without_list_numbers("shaft.journal[12].z, lobe[0]") == "shaft.journal.z, lobe");
    CHECK(without_list_numbers("there is no [profile.a1], [], [x1], [2") ==
          "there is no [profile.a1], [], [x1], [2");
    CHECK(without_list_numbers("").empty());
}
