// The program from texts to texts makes what the program on a disk makes.
#include "cli/text_run.h"

#include "catch.h"
#include "program.h"
#include "random_job_text.h"
#include "small_job.h"
#include "three_operations.h"
#include "trials.h"

using namespace lobewright::cli;
using lobewright::KnownShapes;
namespace fs = std::filesystem;

namespace {

using Words = std::vector<std::string>;

Texts texts_in(const fs::path& folder) {
    Texts texts;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file())
            texts[entry.path().lexically_relative(folder).string()] = file_text(entry.path());
    }
    return texts;
}

void put_texts(const Texts& texts, const fs::path& folder) {
    for (const auto& [name, text] : texts) {
        fs::create_directories((folder / name).parent_path());
        write_file(folder / name, text);
    }
}

/// What the built program makes in a folder where the texts lie: of its files, those that are new or other.
TextRun run_on_disk(const Words& arguments, const Texts& texts) {
    const TemporaryFolder folder;
    put_texts(texts, folder.path());
    const Run run = run_program(arguments, folder.path());
    TextRun left{run.exit_code, run.out, run.err, texts_in(folder.path())};
    std::erase_if(left.files, [&](const auto& file) {
        const auto old = texts.find(file.first);
        return old != texts.end() && old->second == file.second;
    });
    return left;
}

/// Checks that memory and disk agree; what they made.
TextRun same_on_both(const Words& arguments, const Texts& texts) {
    std::string words;
    for (const std::string& each : arguments)
        words += each + ' ';
    INFO(words);
    TextRun memory = run_on_texts(arguments, texts);
    const TextRun disk = run_on_disk(arguments, texts);
    CHECK(memory.code == disk.code);
    CHECK(memory.out == disk.out);
    CHECK(memory.err == disk.err);
    CHECK(memory.files == disk.files);
    return memory;
}

}  // namespace

TEST_CASE("over random jobs memory and disk give the same bytes") {
    for (unsigned seed = 1; seed <= static_cast<unsigned>(trials(6)); ++seed) {
        INFO("seed " << seed);
        const Texts texts{{"job.toml", RandomJobText(seed).fair()}};
        same_on_both({"check", "job.toml", "--json"}, texts);
        same_on_both({"table", "job.toml", "--lobe", "lobe 1", "--every", "5"}, texts);
        same_on_both({"index", "job.toml", "--method", "head", "--format", "csv"}, texts);
        same_on_both({"draw", "job.toml", "--what", "shaft"}, texts);
        same_on_both({"cut", "job.toml", "-o", "job.ngc"}, texts);
    }
}

TEST_CASE(
    "runs one after the other, with the shapes that the ones before have solved, give the same bytes as each "
    "alone") {
    KnownShapes known;
    const auto same_with_known = [&](const Words& arguments, const std::string& job) {
        const Texts texts{{"job.toml", job}};
        const TextRun with = run_on_texts(arguments, texts, known), alone = run_on_texts(arguments, texts);
        CHECK(with.code == alone.code);
        CHECK(with.out == alone.out);
        CHECK(with.err == alone.err);
        CHECK(with.files == alone.files);
    };
    for (unsigned seed = 1; seed <= static_cast<unsigned>(trials(30)); ++seed) {
        INFO("seed " << seed);
        RandomJobText random(seed);
        const std::string fair = random.fair(), hostile = random.hostile();
        for (const std::string& job : {fair, hostile, fair}) {
            same_with_known({"table", "job.toml", "--lobe", "lobe 1", "--json"}, job);
            same_with_known({"compare", "job.toml", "--json"}, job);
            same_with_known({"check", "job.toml", "--json"}, job);
        }
    }
    CHECK(known.solved() > 0);
}

TEST_CASE("while one lobe is typed, one shape is solved") {
    const std::string job = example_text("basalt-four");
    KnownShapes known;
    const auto judged = [&](const std::string& text) {
        const std::size_t before = known.solved();
        run_on_texts({"table", "job.toml", "--lobe", "1 inlet", "--json"}, {{"job.toml", text}}, known);
        run_on_texts({"compare", "job.toml", "--json"}, {{"job.toml", text}}, known);
        run_on_texts({"check", "job.toml", "--json"}, {{"job.toml", text}}, known);
        return known.solved() - before;
    };
    CHECK(judged(job) == 2);  // inlet and exhaust
    CHECK(judged("# a remark, which moves every place\n" + job) == 0);
    CHECK(judged(with(job, "flank_radius = 16.0", "flank_radius = 16.5")) == 1);
    CHECK(judged(job) == 0);
}

TEST_CASE("whoever compares profiles is asked about slips of the pen, as whoever reads a table is") {
    const Texts texts{
        {"job.toml", with(example_text("basalt-four"), "clearance = 0.10", "clearance = 0.006")}};
    const TextRun compared = same_on_both({"compare", "job.toml", "--json"}, texts);
    CHECK(compared.code == 0);
    CHECK_THAT(compared.err, ContainsSubstring("if 0.006 is in inches, write 0.1524"));
    CHECK(compared.err == run_on_texts({"table", "job.toml", "--lobe", "1 inlet"}, texts).err);
    CHECK(run_on_texts({"compare", "job.toml"}, {{"job.toml", example_text("basalt-four")}}).err.empty());
}

TEST_CASE("programs, their proof and the page go round in memory as on the disk") {
    Texts texts{{"shop/job.toml", small_job()}};
    const TextRun cut = same_on_both({"cut", "shop/job.toml", "-o", "shop/job.ngc"}, texts);
    REQUIRE(cut.code == 0);
    REQUIRE(cut.files.size() == 1);
    CHECK(cut.files.begin()->first == "shop/job.ngc");
    texts.insert(cut.files.begin(), cut.files.end());
    CHECK(same_on_both({"prove", "shop/job.toml", "shop/job.ngc"}, texts).code == 0);
    CHECK(same_on_both({"sheet", "shop/job.toml", "--program", "shop/job.ngc", "-o", "job.html"}, texts)
              .files.contains("job.html"));
    CHECK(same_on_both({"cut", "./shop/job.toml", "-o", "./shop/../other.ngc"}, texts).code == 0);
}

TEST_CASE("files that a job names are found beside it in memory, too") {
    const std::string post =
        run_on_texts({"posts", "--show", "rs274ngc-xza"}, {}).out;  // the shipped one, as a file of one's own
    const std::string job = with(small_job(), R"(post = "rs274ngc-xza")", R"(post = "posts/own.toml")");
    const Texts texts{{"shop/job.toml", job}, {"shop/posts/own.toml", post}};
    CHECK(same_on_both({"cut", "shop/job.toml"}, texts).code == 0);
    CHECK(same_on_both({"cut", "shop/job.toml"}, {{"shop/job.toml", job}}).code == 3);
    CHECK(same_on_both({"check", "shop/posts"}, texts).code == 3);
    CHECK(same_on_both({"check", "shop/job.toml/x"}, texts).code == 3);
    CHECK(same_on_both({"check", "nowhere.toml"}, texts).code == 3);
}

TEST_CASE("what may not be written over is left alone in memory, too") {
    const Texts texts{{"job.toml", small_job()}, {"letter.txt", "Dear Sir"}, {"folder/x", "x"}};
    CHECK(same_on_both({"table", "job.toml", "--lobe", "1 inlet", "-o", "./job.toml"}, texts).code == 2);
    CHECK(same_on_both({"cut", "job.toml", "-o", "letter.txt"}, texts).code == 2);
    CHECK(same_on_both({"start", "letter.txt", "--for", "dividing-head"}, texts).code == 2);
    CHECK(same_on_both({"start", "new.toml", "--for", "dividing-head"}, texts).files.size() == 1);
    CHECK(same_on_both({"cut", "job.toml", "-o", "folder"}, texts).code == 3);
    CHECK(same_on_both({"cut", "job.toml", "-o", "letter.txt/x"}, texts).code == 3);
    CHECK(same_on_both({"cut", "job.toml", "-o", "letter.txt", "--force"}, texts).code == 0);
}

TEST_CASE("several programs of one run are written together in memory, too") {
    const Texts texts{{"job.toml", three_operations()}, {"own/x", "x"}};
    CHECK(same_on_both({"cut", "job.toml", "-o", "{operation}.ngc"}, texts).files.size() == 3);
    CHECK(same_on_both({"cut", "job.toml", "-o", "job.toml/{operation}.ngc"}, texts).code == 3);
    const TextRun twice = run_on_texts({"cut", "job.toml", "-o", "own/{operation}/../a.ngc"}, texts);
    CHECK(twice.code == 2);
    CHECK(twice.files.empty());
    CHECK_THAT(twice.err, ContainsSubstring("two files of this run would have this name"));
}

TEST_CASE("the text called - is standard input") {
    const Texts on_disk{{"job.toml", small_job()}};
    const TextRun disk = run_on_disk({"check", "job.toml", "--json"}, on_disk);
    const TextRun memory = run_on_texts({"check", "-", "--json"}, {{"-", small_job()}});
    CHECK(memory.code == 0);
    CHECK(memory.out == disk.out);
    const TextRun cut = run_on_texts({"cut", "job.toml"}, on_disk);
    const TextRun proof =
        run_on_texts({"prove", "job.toml", "-"}, {{"job.toml", small_job()}, {"-", cut.out}});
    CHECK(proof.code == 0);
    CHECK_THAT(run_on_texts({"prove", "job.toml", "-"}, on_disk).err, ContainsSubstring("standard input"));
}

TEST_CASE("texts that are too large are refused as files are") {
    const TextRun run = run_on_texts({"check", "job.toml"}, {{"job.toml", std::string((4u << 20) + 1, ' ')}});
    CHECK(run.code == 3);
    CHECK(run.err == "job.toml: can't be read (it is larger than 4 MiB): check the name and the folder\n");
}
