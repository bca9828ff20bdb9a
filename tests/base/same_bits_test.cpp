// What keeps a job's bytes the same on every machine can be read in the sources: these tests do.

#include "catch.h"
#include "program.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <regex>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

std::vector<fs::path> sources() {
    std::vector<fs::path> files;
    for (const char* folder : {"src", "include"}) {
        for (const auto& entry : fs::recursive_directory_iterator(source_folder() / folder))
            if (entry.path().extension() == ".cpp" || entry.path().extension() == ".h")
                files.push_back(entry.path());
    }
    return files;
}

/// The code without its comments and without what stands between quotes.
std::string code_of(const std::string& text) {
    std::string code;
    for (std::size_t at = 0; at < text.size();) {
        if (text.compare(at, 2, "//") == 0) {
            at = std::min(text.find('\n', at), text.size());
        } else if (text.compare(at, 2, "/*") == 0) {
            at = std::min(text.find("*/", at), text.size() - 2) + 2;
        } else if (text.compare(at, 3, "R\"(") == 0) {
            at = std::min(text.find(")\"", at), text.size() - 2) + 2;
        } else if (text[at] == '"') {
            for (++at; at < text.size() && text[at] != '"'; ++at)
                if (text[at] == '\\') ++at;
            ++at;
        } else {
            code += text[at++];
        }
    }
    return code;
}

/// Of <cmath>, all that IEEE 754 does not settle to the last bit.
const std::string functions =
    "(?:a?(?:sin|cos|tan)h?|atan2|exp|exp2|expm1|log|log2|log10|log1p|pow|cbrt|hypot|fma|l?[tg]gamma|erfc?|"
    "assoc_\\w+|"
    "beta|cyl_\\w+|sph_\\w+|(?:comp_)?ellint_\\w+|expint|riemann_zeta|lerp)[fl]?";

std::vector<std::string> found_in(const std::string& code, const std::regex& wanted) {
    std::vector<std::string> found;
    for (std::sregex_iterator match(code.begin(), code.end(), wanted), end; match != end; ++match)
        found.push_back(match->str());
    return found;
}

/// std::sin, ::sin and a bare sin(, but not elementary::sin, a.sin( or cosine(; in the folder that defines
/// them, the first two.
std::vector<std::string> foreign_calls(const std::string& text, bool bare_too) {
    static const std::regex qualified("(?:std|(?:^|[^\\w]))::" + functions + "\\b(?!::)");
    static const std::regex bare("(?:^|[^\\w:.>])" + functions + "\\s*\\(");
    const std::string code = code_of(text);
    std::vector<std::string> found = found_in(code, qualified);
    if (!bare_too) return found;
    for (const std::string& call : found_in(code, bare))
        found.push_back(call);
    return found;
}

}  // namespace

TEST_CASE("the search for the C library's own functions finds every way to call them") {
    for (const char* call :
         {"x = std::sin(y);", "x = sin(y);", "x = ::cos (y);", "std::transform(a, b, c, std::atanf);",
          "return hypot(a, b);", "(pow(a, 2))", "-std::fma(a, b, c)", "std::log10(x)", "\tlogl(x)"}) {
        CAPTURE(call);
        CHECK(foreign_calls(call, true).size() == 1);
    }
    for (const char* harmless :
         {"elementary::sin(x)", "shape.cos(x)", "cosine(x)", "// std::sin(x)", "\"sin(x)\"", "arcsin(x)",
          "/* pow(x) */", "it->log(x)", "std::exponential", "const double exp = 1;"}) {
        CAPTURE(harmless);
        CHECK(foreign_calls(harmless, true).empty());
    }
}

TEST_CASE("no function whose last bits differ between C libraries is called") {
    const auto files = sources();
    CHECK(files.size() > 150);
    for (const fs::path& file : files) {
        const bool defines_them = file.parent_path().filename() == "elementary";
        for (const std::string& call : foreign_calls(file_text(file), !defines_them))
            FAIL_CHECK(file.string() << " calls " << call);
    }
}

TEST_CASE("no number is wider than a double, and none is summed in an order of the library's own choice") {
    static const std::regex unsettled(
        "long double|std::(?:reduce|transform_reduce|unordered_\\w+|execution)\\b");
    for (const fs::path& file : sources())
        for (const std::string& use : found_in(code_of(file_text(file)), unsettled))
            FAIL_CHECK(file.string() << " has " << use);
}

TEST_CASE("numbers come to whole steps in one place, which lets no rounding noise decide a tie") {
    static const std::regex rounding("std::(?:l?l?round|l?l?rint|nearbyint)\\b");
    for (const fs::path& file : sources()) {
        if (file.filename() == "whole_steps.cpp") continue;
        for (const std::string& use : found_in(code_of(file_text(file)), rounding))
            FAIL_CHECK(file.string() << " has " << use << ": nearest_step of base/whole_steps.h");
    }
}

// Two of one name are one to the linker, which takes either.
TEST_CASE("no two headers define a constant of the same name") {
    static const std::regex constant("(?:^|\\n)inline constexpr [^;={(]*?(\\w+)\\s*[={]");
    std::map<std::string, fs::path> found;
    for (const fs::path& file : sources()) {
        if (file.extension() != ".h") continue;
        const std::string code = code_of(file_text(file));
        for (std::sregex_iterator match(code.begin(), code.end(), constant), end; match != end; ++match) {
            const auto [first, is_new] = found.emplace((*match)[1].str(), file);
            if (!is_new)
                FAIL_CHECK(first->second.string() << " and " << file.string() << ": " << first->first);
        }
    }
    CHECK(found.size() > 30);
}
