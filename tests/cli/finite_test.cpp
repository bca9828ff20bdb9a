// No output of any command holds a figure that is none.
#include "catch.h"
#include "every_command.h"
#include "program.h"
#include "random_job_text.h"
#include "trials.h"

#include <cctype>
#include <exception>

namespace {

/// Whether `word` stands in the text by itself: "inf", not "infeed".
bool has_word(const std::string& text, const std::string& word) {
    const auto letter = [&](std::size_t i) {
        return i < text.size() && (std::isalnum(static_cast<unsigned char>(text[i])) != 0 || text[i] == '_');
    };
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        if ((at == 0 || !letter(at - 1)) && !letter(at + word.size())) return true;
    }
    return false;
}

/// What the command says; nothing where it stops by a bug of ours, which fails the test.
std::string finite(const std::vector<std::string>& arguments) {
    std::string words;
    for (const std::string& each : arguments)
        words += each + ' ';
    INFO(words);
    try {
        const CommandRun run = run_in_process(arguments);
        const std::string said = run.said();
        for (const char* none : {"inf", "nan", "infinity"}) {
            INFO(said);
            CHECK_FALSE(has_word(said, none));
        }
        return run.result.text.value_or("");
    } catch (const std::exception& bug) {
        FAIL_CHECK("a bug of ours: " << bug.what());
        return {};
    }
}

void run_everything(const std::string& job, const std::string& program) {
    if (finite({"check", job}).empty()) return;
    finite({"check", job, "--json"});
    for (const char* format : {"csv", "json", "markdown"}) {
        finite({"table", job, "--lobe", "lobe 1", "--every", "7.5", "--format", format});
        for (const char* method : {"lathe", "head", "table"})
            finite({"index", job, "--method", method, "--format", format});
    }
    for (const char* thing : {"lobe", "shaft", "wheel", "nose", "degree-wheel", "motion"}) {
        for (const char* format : {"svg", "dxf"})
            finite(
                {"draw", job, "--what", thing, "--lobe", "lobe 1", "--method", "lathe", "--format", format});
    }
    finite({"inspect", job, "--lobe", "lobe 1", "--every", "7.5", "--json"});
    const std::string readings = job + ".csv";
    write_file(readings, finite({"inspect", job, "--lobe", "lobe 1", "--every", "3"}));
    for (const char* format : {"csv", "json", "markdown", "text"})
        finite({"inspect", job, "--lobe", "lobe 1", "--readings", readings, "--tolerance", "0.01", "--format",
                format});
    finite({"inspect", job, "--lobe", "lobe 1", "--readings", readings, "--unknown", "zero,runout"});
    finite({"inspect", job, "--lobe", "lobe 1", "--readings", readings, "--fit", "arcs", "--json"});
    finite({"inspect", job, "--lobe", "lobe 1", "--readings", readings, "--fit", "table"});
    finite({"inspect", job, "--lobe", "lobe 1", "--installed", "--every", "30", "--json"});
    finite({"cut", job, "--plan"});
    finite({"sheet", job});
    const std::string text = finite({"cut", job});
    if (text.empty()) return;
    write_file(program, text);
    finite({"prove", job, program});
    finite({"prove", job, program, "--json"});
}

}  // namespace

TEST_CASE("over random jobs every figure of every command is one") {
    const TemporaryFolder folder;
    const std::string job = (folder.path() / "job.toml").string();
    for (unsigned seed = 1; seed <= static_cast<unsigned>(trials(12)); ++seed) {
        const std::string text = RandomJobText(seed).fair();
        INFO("seed " << seed << '\n' << text);
        write_file(job, text);
        run_everything(job, (folder.path() / "job.ngc").string());
    }
}

TEST_CASE("over hostile jobs every figure of every command is one, or the job is refused") {
    const TemporaryFolder folder;
    const std::string job = (folder.path() / "job.toml").string();
    for (unsigned seed = 1; seed <= static_cast<unsigned>(trials(40)); ++seed) {
        const std::string text = RandomJobText(seed).hostile();
        INFO("seed " << seed << '\n' << text);
        write_file(job, text);
        run_everything(job, (folder.path() / "job.ngc").string());
    }
}
