// Hostile inputs, each with what the program must say of it: exit code 2, that very message, and nothing
// written.
//
// tests/cli/hostile/NAME.txt holds cases one below the other, with empty lines between:
//
//     * what is wrong with it
//     - a line of the sound text, which is taken out (the first such line)
//     + a line that is put in its place; without a "-" before it, at the end
//     $ the command, where it isn't the one that the file begins with
//     > what the program says, line by line
//
// "\t", "\r", "\xNN" and "\\" stand for characters that an editor hides. With LOBEWRIGHT_RENEW_GOLDEN=1 the
// test writes anew what the program says; read it before you commit it.
#include "catch.h"
#include "program.h"

#include <algorithm>
#include <cstdlib>
#include <sstream>
#include <stdexcept>

namespace fs = std::filesystem;

namespace {

using Lines = std::vector<std::string>;

/// A line that is put in, or taken out.
struct Change {
    bool put_in = false;
    std::string line;
};

struct HostileCase {
    std::string title;
    Lines source;  ///< as it stands in the file, without what the program says
    std::vector<Change> changes;
    std::string command;
    std::string said;
};

/// The file that is spoilt, and how the program comes to read it.
struct HostileFile {
    std::string command;  ///< for all cases that have none of their own
    std::string spoilt;   ///< a file's name in the folder
    std::vector<HostileCase> cases;
    Lines head;  ///< comments and the two above
};

Lines lines_of(const std::string& text) {
    std::istringstream in(text);
    Lines lines;
    for (std::string line; std::getline(in, line);)
        lines.push_back(line);
    return lines;
}

std::string unescaped(const std::string& text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '\\' || i + 1 == text.size()) {
            plain += text[i];
            continue;
        }
        const char c = text[++i];
        if (c == 'x') plain += static_cast<char>(std::stoi(text.substr(i + 1, 2), nullptr, 16)), i += 2;
        if (c == 't') plain += '\t';
        if (c == 'r') plain += '\r';
        if (c == '\\') plain += '\\';
    }
    return plain;
}

/// A line of a case by its first character.
void take(HostileCase& made, const std::string& line) {
    const std::string rest = line.size() > 2 ? line.substr(2) : "";
    if (line[0] == '>') {
        made.said += rest + '\n';
        return;
    }
    made.source.push_back(line);
    if (line[0] == '-' || line[0] == '+') made.changes.push_back({line[0] == '+', unescaped(rest)});
    if (line[0] == '$') made.command = unescaped(rest);
}

HostileFile read_cases(const fs::path& path) {
    HostileFile file;
    for (const std::string& line : lines_of(file_text(path))) {
        if (line.starts_with("* ")) file.cases.push_back({line.substr(2), {line}, {}, {}, {}});
        if (file.cases.empty()) {
            file.head.push_back(line);
            if (line.starts_with("$ ")) file.command = line.substr(2);
            if (line.starts_with("spoils ")) file.spoilt = line.substr(7);
        } else if (!line.empty() && line[0] != '*') {
            take(file.cases.back(), line);
        }
    }
    return file;
}

/// The sound text with the case's lines in the place of those that it takes out.
std::string spoilt_text(Lines lines, const HostileCase& each) {
    auto at = lines.end();
    for (const Change& change : each.changes) {
        if (change.put_in) {
            at = lines.insert(at, change.line) + 1;
            continue;
        }
        at = std::find(lines.begin(), lines.end(), change.line);
        if (at == lines.end()) throw std::invalid_argument("no such line: " + change.line);
        at = lines.erase(at);
    }
    std::string text;
    for (const std::string& line : lines)
        text += line + '\n';
    return text;
}

/// Words at the spaces; a pair of double quotes holds one together.
Lines words_of(const std::string& command) {
    Lines words;
    bool quoted = false, inside = false;
    for (const char c : command) {
        if (c == '"') quoted = !quoted;
        const bool starts = c == '"' ? quoted && !inside : c != ' ' && !inside;
        if (starts) words.emplace_back(), inside = true;
        if (c == ' ' && !quoted) inside = false;
        if (c != '"' && (quoted || c != ' ')) words.back() += c;
    }
    return words;
}

std::size_t files_in(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

/// What the program says of a case, which writes nothing and ends with 2.
std::string said_of(const HostileFile& file, const HostileCase& each, const fs::path& folder) {
    const fs::path sound = source_folder() / "tests/cli/hostile";
    if (!file.spoilt.empty())
        write_file(folder / file.spoilt, spoilt_text(lines_of(file_text(sound / file.spoilt)), each));
    const std::size_t before = files_in(folder);
    const std::string& command = each.command.empty() ? file.command : each.command;
    const Run run = run_program(words_of(command), folder);
    INFO(run.err);
    CHECK(run.exit_code == 2);
    CHECK(
        (run.out.empty() || command.find("--json") != std::string::npos));  // there complaints are JSON, too
    CHECK(files_in(folder) == before);
    return run.err;
}

void write_anew(const fs::path& path, const HostileFile& file, const Lines& said) {
    std::string text;
    for (const std::string& line : file.head)
        text += line + '\n';
    for (std::size_t i = 0; i < said.size(); ++i) {
        for (const std::string& line : file.cases[i].source)
            text += line + '\n';
        for (const std::string& line : lines_of(said[i]))
            text += "> " + line + '\n';
        if (i + 1 < said.size()) text += '\n';
    }
    write_file(path, text);
}

/// All cases of one file; how many they are.
std::size_t try_cases(const std::string& name) {
    const fs::path hostile = source_folder() / "tests/cli/hostile", path = hostile / (name + ".txt");
    const TemporaryFolder folder;
    for (const fs::directory_entry& entry : fs::directory_iterator(hostile))
        if (entry.path().extension() != ".txt") fs::copy(entry.path(), folder.path());
    const HostileFile file = read_cases(path);
    Lines said;
    for (const HostileCase& each : file.cases) {
        INFO(name << ": " << each.title);
        said.push_back(said_of(file, each, folder.path()));
        if (std::getenv("LOBEWRIGHT_RENEW_GOLDEN") == nullptr) CHECK(said.back() == each.said);
    }
    if (std::getenv("LOBEWRIGHT_RENEW_GOLDEN") != nullptr) write_anew(path, file, said);
    return file.cases.size();
}

}  // namespace

TEST_CASE("a hostile job is refused by what is wrong with it", "[hostile]") {
    CHECK(try_cases("jobs") >= 50);
}

TEST_CASE("a hostile dialect is refused by what is wrong with it", "[hostile]") {
    CHECK(try_cases("dialects") >= 30);
}

TEST_CASE("a hostile program is refused by what is wrong with it", "[hostile]") {
    CHECK(try_cases("programs") >= 60);
}

TEST_CASE("a hostile lift table is refused by what is wrong with it", "[hostile]") {
    CHECK(try_cases("tables") >= 15);
}

TEST_CASE("hostile readings are refused by what is wrong with them", "[hostile]") {
    CHECK(try_cases("readings") >= 15);
}

TEST_CASE("hostile arguments are refused by what is wrong with them", "[hostile]") {
    CHECK(try_cases("arguments") >= 30);
}
